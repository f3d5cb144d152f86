import { useEffect, useRef, useState } from 'react';
import type { RegisterCurve } from '../../core/trap/index.ts';
import { ACCEPTED_MM2, USUAL_TRIALS } from '../../core/trapTrials.ts';
import { type TrialChoice, tryTraps } from '../acts/index.ts';
import { Card, LengthField, NumberBox } from '../bench/index.ts';
import { changePress, changeTraps, edit, formatLength, tell, useStudio } from '../state/index.ts';
import { areaWords, GapPlot } from './GapPlot.tsx';

interface Running {
  readonly done: number;
  readonly text: string;
  readonly stop: () => void;
}

/** What a hand that strays will show, by trap width, and the width to take. */
export function GapCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { traps, inks, art } = job.faces[face];
  const [limitMm2, setLimit] = useState(ACCEPTED_MM2);
  const [trials, setTrials] = useState(USUAL_TRIALS);
  const [running, setRunning] = useState<Running | null>(null);
  const [curve, setCurve] = useState<{ of: string; curve: RegisterCurve; choice: TrialChoice } | null>(null);
  const stop = useRef<(() => void) | null>(null);
  useEffect(() => () => stop.current?.(), []);
  // A curve is of the face it was tried on; widths of its own may change, the rest may not.
  const of = JSON.stringify([face, art, inks.map((i) => [i.id, i.hex, i.role]), traps.pairs, traps.choke]);
  const shown = curve?.of === of ? curve : null;

  const start = () => {
    const choice = { toleranceMm: job.press.registerTolerance, limitMm2, trials };
    const run = tryTraps(choice, (done, text) => setRunning((r) => (r ? { ...r, done, text } : r)));
    stop.current = run.stop;
    setRunning({ done: 0, text: 'separating the art', stop: run.stop });
    run.curve
      .then((made) => {
        if (made) setCurve({ of, curve: made, choice });
      })
      .catch((error: unknown) => {
        console.error(error);
        tell(
          'trouble',
          'The trials broke off.',
          'Try fewer trials; if it stays so, save the job and report it.',
        );
      })
      .finally(() => {
        stop.current = null;
        setRunning(null);
      });
  };
  const best = shown?.curve.recommendedMm ?? null;
  // Where none keeps within the limit, the one that shows least is still worth taking.
  const least = shown?.curve.points.reduce((a, b) => (b.areaMm2.p95 < a.areaMm2.p95 ? b : a)).widthMm as
    | number
    | undefined;
  const take = (best as number | null) ?? least ?? traps.width;
  const here = shown?.curve.points.find((p) => p.widthMm === take);
  return (
    <Card title="What a moving screen will show" wide>
      <p className="hint">
        Every pull is shifted and turned at random within your register, many times over, at several trap
        widths. Narrower is better for the art: take the smallest width that keeps the gaps small enough for
        you.
      </p>
      <div className="fields">
        <LengthField
          label="Your pulls stray by up to"
          value={job.press.registerTolerance}
          min={0.05}
          max={5}
          step={0.05}
          onChange={(registerTolerance) =>
            edit('Change register', (j) => changePress(j, { registerTolerance }), 'register tolerance')
          }
        />
        <NumberBox
          label="Gaps you accept, together"
          value={limitMm2}
          min={0.5}
          max={5000}
          step={10}
          digits={1}
          unit="mm²"
          onChange={setLimit}
        />
        <NumberBox
          label="Trials a width"
          value={trials}
          min={10}
          max={1000}
          step={10}
          digits={0}
          onChange={setTrials}
        />
      </div>
      {running ? (
        <div className="progress" role="status">
          <span>{running.text}</span>
          <progress value={running.done} max={1} aria-label="Trials done" />
          <button type="button" onClick={running.stop}>
            Stop
          </button>
        </div>
      ) : (
        <button
          type="button"
          className="button-main"
          disabled={inks.length < 2 || art.length === 0}
          onClick={start}
        >
          {shown ? 'Try again' : 'Try it'}
        </button>
      )}
      {shown && (
        <>
          <GapPlot curve={shown.curve} limit={shown.choice.limitMm2} now={traps.width} units={job.units} />
          {here && (
            <p className="hint">
              At {formatLength(here.widthMm as number, job.units, 2)} half of the trials show less than{' '}
              {areaWords(here.areaMm2.p50)}, 95 of 100 less than {areaWords(here.areaMm2.p95)}, the widest gap{' '}
              {formatLength(here.widestMm.p95, job.units, 2)}.
            </p>
          )}
          <div className="button-row">
            {best === null && (
              <p>
                <b>No trap tried keeps the gaps under {areaWords(shown.choice.limitMm2)}.</b> Hold register
                closer, or accept more: fine lines and corners of three inks no trap can save.
              </p>
            )}
            <button
              type="button"
              className="button-main"
              disabled={take === traps.width}
              onClick={() => edit('Take tried trap', (j) => changeTraps(j, face, { width: take }))}
            >
              {take === traps.width ? 'Your trap is ' : 'Take '}
              {formatLength(take, job.units, 2)}
              {best === null ? ', the least gaps of those tried' : ', recommended'}
            </button>
          </div>
        </>
      )}
    </Card>
  );
}
