import { useEffect, useMemo, useRef, useState } from 'react';
import {
  type Deck,
  deckLength,
  type HoleChoice,
  type NoseTo,
  type Pixels,
} from '../../../core/deck/index.ts';
import { Choice, LengthField, Measure, NumberBox, Pick, Toggle } from '../../bench/index.ts';
import { TracePicture } from './TracePicture.tsx';
import { holesWanted, type Place, squared, type TraceSettings } from './traceState.ts';
import { useTrace } from './useTrace.ts';
import './trace.css';

const HOLES: readonly { value: HoleChoice; label: string }[] = [
  { value: 'all', label: 'All eight' },
  { value: 'outer', label: 'The four outermost' },
  { value: 'tail', label: 'The four of the tail’s truck' },
  { value: 'nose', label: 'The four of the nose’s truck' },
];
const NOSES: readonly { value: NoseTo; label: string }[] = [
  { value: 'right', label: 'Right' },
  { value: 'left', label: 'Left' },
  { value: 'up', label: 'Up' },
  { value: 'down', label: 'Down' },
];
/** mm: a camera held over a deck on the floor. */
const USUAL_CAMERA = 1500;
/** mm of residual up to which the holes are said to fit well. */
const GOOD = 0.3;

interface Props {
  readonly deck: Deck;
  readonly picture: Pixels;
  readonly name: string;
  readonly onTake: (deck: Deck) => void;
  readonly onClose: () => void;
}

/** A photograph or scan made into an outline: it is traced, squared from its truck holes, looked over, and taken. */
export function TraceDialog({ deck, picture, name, onTake, onClose }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [holes, setHoles] = useState<readonly Place[]>([]);
  const [settings, setSettings] = useState<TraceSettings>({
    which: 'all',
    noseTo: picture.width >= picture.height ? 'right' : 'up',
    face: 'bottom',
    wheelbase: deck.wheelbase,
    threshold: null,
    cameraHeight: null,
  });
  const change = (next: Partial<TraceSettings>) => setSettings((now) => ({ ...now, ...next }));
  const traced = useTrace(picture, settings.threshold);
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  const trace = traced?.ok ? traced.value : null;
  const result = useMemo(
    () => (trace ? squared(deck, picture, trace, holes, settings, name) : null),
    [deck, picture, trace, holes, settings, name],
  );
  const good = result?.ok ? result.value : null;
  const trouble = traced && !traced.ok ? traced : result && !result.ok ? result : null;
  const wanted = holesWanted(settings.which);
  return (
    <dialog ref={dialog} className="trace" aria-label="Trace a photograph" onClose={onClose}>
      <TracePicture picture={picture} trace={trace} holes={holes} wanted={wanted} onHoles={setHoles} />
      <div className="trace-side">
        <h2>Trace {name}</h2>
        <Pick
          label="Truck holes to click"
          value={settings.which}
          options={HOLES}
          onChange={(which) => {
            change({ which });
            setHoles(holes.slice(0, holesWanted(which)));
          }}
        />
        <Choice
          label="The nose points"
          value={settings.noseTo}
          options={NOSES}
          onChange={(noseTo) => change({ noseTo })}
        />
        <Choice
          label="The face you see"
          value={settings.face}
          options={[
            { value: 'bottom', label: 'Bottom' },
            { value: 'top', label: 'Top' },
          ]}
          onChange={(face) => change({ face })}
        />
        <Toggle
          label="I measured the wheelbase"
          hint="Off: it is worked out from how the holes lie"
          on={settings.wheelbase !== null}
          onChange={(on) => change({ wheelbase: on ? deck.wheelbase : null })}
        />
        {settings.wheelbase !== null && (
          <LengthField
            label="Wheelbase, inner holes"
            value={settings.wheelbase}
            onChange={(wheelbase) => change({ wheelbase })}
            min={100}
            max={1200}
            step={1}
          />
        )}
        <Toggle
          label="The wood itself was photographed"
          hint="Its bent ends lie nearer to the camera, or further away, than the holes. Off: a tracing on paper, or a scan."
          on={settings.cameraHeight !== null}
          onChange={(on) => change({ cameraHeight: on ? USUAL_CAMERA : null })}
        />
        {settings.cameraHeight !== null && (
          <LengthField
            label="Camera above the wood"
            hint="Straight over the picture’s middle. The kicks and concave set on the bench are used."
            value={settings.cameraHeight}
            onChange={(cameraHeight) => change({ cameraHeight })}
            min={300}
            max={10000}
            step={50}
          />
        )}
        <Toggle
          label="Tell wood from ground by itself"
          on={settings.threshold === null}
          onChange={(on) => change({ threshold: on ? null : Math.round(trace?.threshold ?? 128) })}
        />
        {settings.threshold !== null && (
          <NumberBox
            label="They part at a lightness of"
            value={settings.threshold}
            onChange={(threshold) => change({ threshold })}
            min={1}
            max={254}
            digits={0}
            unit="of 255"
          />
        )}
        <div className="trace-result" aria-live="polite">
          {!traced && <p className="hint">Tracing …</p>}
          {trouble && (
            <p className={traced?.ok && holes.length < wanted ? '' : 'trace-trouble'}>
              <b>{trouble.reason}</b> {trouble.mend}
            </p>
          )}
          {good && (
            <>
              <div className="measures">
                {good.squaring.spare > 0 ? (
                  <Measure
                    value={good.squaring.residual.toFixed(2)}
                    unit="mm"
                    label="the holes are off, on average"
                  />
                ) : (
                  <Measure value="–" label="four holes always fit: measure the width to be sure" />
                )}
                <Measure value={good.deck.width.toFixed(1)} unit="mm" label="wide" />
                <Measure
                  value={deckLength(good.deck, 'straight').toFixed(1)}
                  unit="mm"
                  label="long, straight"
                />
                <Measure value={good.squaring.wheelbase.toFixed(1)} unit="mm" label="wheelbase" />
              </div>
              {good.squaring.spare > 0 && (
                <p className={good.squaring.worst > GOOD ? 'trace-trouble' : 'hint'}>
                  {good.squaring.worst > GOOD
                    ? `One hole is ${good.squaring.worst.toFixed(2)} mm off. Click it again, or check the wheelbase and the hole pattern.`
                    : `No hole is more than ${good.squaring.worst.toFixed(2)} mm off.`}
                </p>
              )}
            </>
          )}
        </div>
        <div className="trace-ends">
          <button type="button" onClick={() => dialog.current?.close()}>
            Leave it
          </button>
          <button
            type="button"
            className="button-main"
            disabled={!good}
            onClick={() => {
              if (good) onTake(good.deck);
              dialog.current?.close();
            }}
          >
            Take this outline
          </button>
        </div>
      </div>
    </dialog>
  );
}
