import { meshGrowth, reach, sectionOf } from '../../core/press/index.ts';
import { Card, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changeFace, changePress, edit, formatLength, useStudio } from '../state/index.ts';
import { Worked } from './Worked.tsx';

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
