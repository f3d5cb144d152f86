import { useState } from 'react';
import { stepTest, stepTestReading, USUAL } from '../../core/press/index.ts';
import { Card, NumberBox } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { Cautions } from './Cautions.tsx';
import { Worked } from './Worked.tsx';

/** A step test with only a sheet of card. */
export function StepTestCard() {
  const job = useStudio((s) => s.job)!;
  const [middle, setMiddle] = useState<number | null>(null);
  const [factor, setFactor] = useState<number>(USUAL.stepFactor.value);
  const [strip, setStrip] = useState(5);
  const input = { middle: middle ?? job.press.exposure?.time ?? USUAL.testTime.value, factor, strips: 9 };
  return (
    <Card title="Step test">
      <p className="hint">
        Print step-test.pdf on film (“Make press sheets” at the Press station writes it), burn it piece by
        piece with a sheet of card, and choose the strip that keeps the finest lines and gaps.
      </p>
      <div className="fields">
        <NumberBox
          label="Middle strip"
          value={input.middle}
          min={0.5}
          max={36_000}
          unit="s"
          onChange={setMiddle}
        />
        <NumberBox
          label="From strip to strip"
          value={factor}
          min={1.01}
          max={4}
          step={0.05}
          unit="×"
          onChange={setFactor}
        />
      </div>
      <Worked found={stepTest(input)}>
        {({ order }) => (
          <ol className="steps-list">
            {order.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ol>
        )}
      </Worked>
      <NumberBox label="Best strip" value={strip} min={1} max={9} step={0.5} onChange={setStrip} />
      <Worked found={stepTestReading({ ...input, strip })}>
        {({ time, atEdge }) => (
          <>
            <button
              type="button"
              onClick={() =>
                edit('Use the step test', (j) =>
                  changePress(j, { exposure: { ...j.press.exposure, time: Number(time.toFixed(1)) } }),
                )
              }
            >
              Use {time.toFixed(time < 20 ? 1 : 0)} s
            </button>
            {atEdge && <p className="not-held">That is the first or last strip: test again about it.</p>}
          </>
        )}
      </Worked>
      <Cautions of={['exposure', 'washing']} />
    </Card>
  );
}
