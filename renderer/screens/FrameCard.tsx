import { outlineRing } from '../../core/deck/index.ts';
import { innerFrame, meshGrowth, reach, sectionOf, USUAL } from '../../core/press/index.ts';
import { Card, LengthField, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changeFace, changePress, edit, formatLength, useStudio } from '../state/index.ts';
import { Worked } from './Worked.tsx';

/** Frame and off-contact, with the smallest frame that does. */
export function FrameCard() {
  const job = useStudio((s) => s.job)!;
  const { press } = job;
  const put = (label: string, change: Partial<typeof press>) =>
    edit(label, (j) => changePress(j, change), `press ${Object.keys(change)}`);
  const xs = outlineRing(job.deck, 'bottom', 0.5).map(([x]) => x);
  // Films carry their marks some 15 mm off the art on each side.
  const filmLength = Math.max(...xs) - Math.min(...xs) + 30;
  const found = innerFrame({
    filmLength,
    filmWidth: job.deck.width,
    blade: press.blade,
    sideMargin: USUAL.sideMargin.value,
    inkWell: USUAL.inkWell.value,
  });
  return (
    <Card title="Frame">
      <div className="fields">
        <LengthField
          label="Inside, along"
          value={press.frameLength}
          min={0}
          max={5000}
          step={10}
          onChange={(frameLength) => put('Change frame', { frameLength })}
        />
        <LengthField
          label="Inside, across"
          value={press.frameWidth}
          min={0}
          max={3000}
          step={10}
          onChange={(frameWidth) => put('Change frame', { frameWidth })}
        />
        <LengthField
          label="Off-contact"
          value={press.offContact}
          min={0}
          max={100}
          step={0.5}
          onChange={(offContact) => put('Change off-contact', { offContact })}
        />
      </div>
      <Worked found={found}>
        {({ width, length, offContact }) => (
          <p>
            A film of {formatLength(filmLength, job.units, 0)} wants a frame of at least{' '}
            <b>
              {formatLength(length, job.units, 0)} × {formatLength(width, job.units, 0)}
            </b>{' '}
            inside; start off-contact from {formatLength(offContact, job.units)}.
          </p>
        )}
      </Worked>
    </Card>
  );
}

/** How much the print grows, estimated or measured, and how far the mesh reaches. */
export function GrowthCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { press } = job;
  const { measuredGrowth } = job.faces[face];
  const grow = (key: 'along' | 'across', percent: number | null) =>
    edit(
      'Enter measured growth',
      (j) =>
        changeFace(j, face, {
          measuredGrowth: { ...measuredGrowth, [key]: percent === null ? null : percent / 100 },
        }),
      `growth ${key}`,
    );
  const across = meshGrowth({
    ...sectionOf(job.deck, face),
    blade: press.blade,
    frame: press.frameWidth,
    offContact: press.offContact,
  });
  const along = reach(job.deck, face, press);
  return (
    <Card title={`Print grows, ${face}`}>
      <p className="hint">
        Mesh pressed down to the wood stretches, so the print is a little longer than its film. Films are made
        that much smaller.
      </p>
      <Toggle
        label="Correct films for it"
        on={press.compensateGrowth}
        onChange={(compensateGrowth) =>
          edit('Change growth correction', (j) => changePress(j, { compensateGrowth }))
        }
      />
      {(['along', 'across'] as const).map((key) => (
        <div key={key} className="growth">
          <Toggle
            label={`Measured ${key} the deck`}
            on={measuredGrowth[key] !== null}
            onChange={(on) => grow(key, on ? 0 : null)}
          />
          {measuredGrowth[key] !== null && (
            <NumberBox
              label={`Growth ${key}`}
              hideLabel
              value={(measuredGrowth[key] ?? 0) * 100}
              min={-10}
              max={10}
              step={0.01}
              unit="%"
              digits={3}
              onChange={(n) => grow(key, n)}
            />
          )}
        </div>
      ))}
      <Worked found={across}>
        {({ growth, filmScale }) => (
          <div className="measures">
            <Measure value={(growth * 100).toFixed(3)} unit="%" label="across, estimated" />
            <Measure value={filmScale.toFixed(5)} label="film over print" />
          </div>
        )}
      </Worked>
      <Worked found={along}>
        {({ growthAtMiddle, nose, tail }) => (
          <div className="measures">
            <Measure value={(growthAtMiddle * 100).toFixed(3)} unit="%" label="along, estimated" />
            <Measure
              value={formatLength(nose.reach, job.units, 0)}
              label={nose.toTip ? 'reach to the nose tip' : 'reach to the nose'}
            />
            <Measure
              value={formatLength(tail.reach, job.units, 0)}
              label={tail.toTip ? 'reach to the tail tip' : 'reach to the tail'}
            />
          </div>
        )}
      </Worked>
    </Card>
  );
}
