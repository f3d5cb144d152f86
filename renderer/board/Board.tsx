import { useEffect, useMemo, useRef, useState } from 'react';
import { Icon } from '../bench/index.ts';
import { fitView, useStudio, zoomedAt } from '../state/index.ts';
import { BentBoard } from './BentBoard.tsx';
import { boardKeys } from './boardKeys.ts';
import { overBoundary, takeBoundary } from './boundaryHand.ts';
import { Divider } from './Divider.tsx';
import { FaceSwitch } from './FaceSwitch.tsx';
import { faceShape } from './faceShape.ts';
import { takeGuide } from './guideHand.ts';
import { HAND_WORDS } from './handGestures.ts';
import { Loupe, moveLoupe, takeLoupe } from './Loupe.tsx';
import { RealSize, zoomWords } from './RealSize.tsx';
import { useFabricBoard } from './useFabricBoard.ts';
import { VeneerChips } from './VeneerChips.tsx';

const set = useStudio.setState;

/** Space left round the deck, CSS pixels, for rulers and dimension lines. */
const MARGINS = { top: 74, bottom: 60 };

/** The deck on its bench, always there; every station draws on it. */
export function Board() {
  const frame = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const job = useStudio((s) => s.job);
  const face = useStudio((s) => s.face);
  const fitted = useStudio((s) => s.fitted);
  const scale = useStudio((s) => s.view.scale);
  const station = useStudio((s) => s.station);
  const screenPxPerMm = useStudio((s) => s.shop.bench?.screenPxPerMm);
  const layer = useStudio((s) => s.layer);
  const bent = useStudio((s) => s.bent);
  const filmView = useStudio((s) => s.filmView);
  const loupe = useStudio((s) => s.loupe !== null);
  const divider = useStudio((s) => s.divider);
  const handWords = useStudio((s) => (s.station === 'inks' && s.hand ? HAND_WORDS[s.hand.kind] : null));
  const inks = job?.faces[face].inks.length ?? 0;
  useFabricBoard(canvas, size);

  useEffect(() => {
    if (!frame.current) return;
    const watch = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      setSize({ width: Math.round(width), height: Math.round(height) });
    });
    watch.observe(frame.current);
    return () => watch.disconnect();
  }, []);

  const box = useMemo(() => (job ? faceShape(job, face).box : null), [job, face]);
  useEffect(() => {
    if (fitted && box && size.width > 0)
      set({
        view: fitView(box, size.width, size.height, { ...MARGINS, side: Math.min(104, size.width * 0.08) }),
      });
  }, [fitted, box, size]);

  const zoom = (factor: number) => {
    const { view } = useStudio.getState();
    set({
      fitted: false,
      view: zoomedAt(view, size.width, size.height, size.width / 2, size.height / 2, factor),
    });
  };
  const name = job
    ? `${face === 'bottom' ? 'Bottom' : 'Top'} face of ${job.deck.name || 'the deck'}, nose to the right`
    : '';
  return (
    <section className="board" aria-label="The deck on the bench">
      <div
        className="board-frame"
        ref={frame}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the board pans, zooms and nudges by keyboard
        tabIndex={0}
        role="application"
        aria-label={`${name}. ${
          handWords ?? 'Arrow keys pan or nudge, plus and minus zoom, 0 fits, L takes the loupe.'
        }`}
        onKeyDown={(e) => boardKeys(e, zoom)}
        onPointerDownCapture={(e) => {
          takeGuide(e);
          takeBoundary(e);
        }}
        onPointerMove={(e) => {
          moveLoupe(e.currentTarget, e.clientX, e.clientY);
          overBoundary(e);
        }}
      >
        <canvas ref={canvas} />
      </div>
      {!bent && station === 'inks' && divider !== null && inks > 0 && <Divider {...size} />}
      {!bent && loupe && job && <Loupe {...size} />}
      {bent && <BentBoard />}
      <div className="board-left">{station !== 'deck' && <VeneerChips />}</div>
      <div className="board-right">
        <fieldset className="slider-pair">
          <legend className="unseen">The deck, flat or bent</legend>
          {[false, true].map((b) => (
            <button key={String(b)} type="button" aria-pressed={bent === b} onClick={() => set({ bent: b })}>
              {b ? 'Bent' : 'Flat'}
            </button>
          ))}
        </fieldset>
        {!bent && station === 'art' && (job?.faces[face].inks.length ?? 0) > 0 && (
          <fieldset className="slider-pair">
            <legend className="unseen">On the deck</legend>
            {(['proof', 'art'] as const).map((l) => (
              <button key={l} type="button" aria-pressed={layer === l} onClick={() => set({ layer: l })}>
                {l === 'proof' ? 'Printed' : 'As drawn'}
              </button>
            ))}
          </fieldset>
        )}
        {!bent && station === 'inks' && inks > 0 && (
          <button
            type="button"
            className="board-button"
            aria-pressed={divider !== null}
            onClick={() => set({ divider: divider === null ? 0.5 : null })}
          >
            Before | after
          </button>
        )}
        {!bent && station !== 'deck' && inks > 0 && (
          <button type="button" className="board-button" aria-pressed={loupe} onClick={takeLoupe} title="L">
            <Icon name="loupe" /> Loupe
          </button>
        )}
        {!bent && station === 'films' && (job?.faces[face].inks.length ?? 0) > 0 && (
          <fieldset className="slider-pair">
            <legend className="unseen">On the deck</legend>
            {(['film', 'proof'] as const).map((f) => (
              <button
                key={f}
                type="button"
                aria-pressed={filmView === f}
                onClick={() => set({ filmView: f })}
              >
                {f === 'film' ? 'One film' : 'Printed'}
              </button>
            ))}
          </fieldset>
        )}
      </div>
      <div className="board-tail">
        <FaceSwitch frame={frame} />
      </div>
      <div className="board-nose zoom" hidden={bent}>
        <button type="button" aria-label="Zoom out" onClick={() => zoom(1 / 1.35)}>
          <Icon name="minus" />
        </button>
        <button
          type="button"
          className="zoom-fit"
          aria-pressed={fitted}
          onClick={() => set({ fitted: true })}
          title="Show the whole deck (0)"
        >
          {fitted ? 'Whole deck' : zoomWords(scale, screenPxPerMm)}
        </button>
        <RealSize />
        <button type="button" aria-label="Zoom in" onClick={() => zoom(1.35)}>
          <Icon name="plus" />
        </button>
      </div>
    </section>
  );
}
