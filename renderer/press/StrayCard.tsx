import { useState } from 'react';
import { asTolerance, ENOUGH_READINGS, learnedTolerance, loggedScreens } from '../../core/loggedRegister.ts';
import { pullsOf } from '../../core/runOf.ts';
import { screenOffset } from '../../core/trap/index.ts';
import { Card, NumberBox, Pick } from '../bench/index.ts';
import { changePress, edit, formatLength, useStudio } from '../state/index.ts';

/** How far pulls lay off on printed decks, and the tolerance that this teaches. */
export function StrayCard() {
  const job = useStudio((s) => s.job)!;
  // Every pull is read against its face's first.
  const pulls = pullsOf(job).filter((p) => p.pull > 1);
  const face = useStudio((s) => s.face);
  const [chosen, setChosen] = useState<number | null>(null);
  const [along, setAlong] = useState(0);
  const [across, setAcross] = useState(0);
  const ofFace = pulls.findIndex((p) => p.face === face);
  const at = Math.min(chosen ?? Math.max(0, ofFace), pulls.length - 1);
  const pull = pulls[at];
  const screens = loggedScreens(job);
  const learned = learnedTolerance(job);
  const nameOf = (face: string, inkId: string) => {
    const found = pulls.find((p) => p.face === face && p.ink.id === inkId);
    return `${face} ${found ? `${found.pull} ${found.ink.name}` : inkId}`;
  };
  const say = (mm: number) => formatLength(mm, job.units, job.units === 'mm' ? 2 : 3);
  const write = () => {
    if (!pull) return;
    const line = { face: pull.face, inkId: pull.ink.id, kind: 'test' as const, decks: 0, words: '' };
    edit('Write down a reading', (j) =>
      changePress(j, { log: [...(j.press.log ?? []), { ...line, along, across }] }),
    );
  };
  const tolerance = learned && asTolerance(learned);
  return (
    <Card title="How far your pulls stray" wide>
      <p className="hint">
        Look at a printed deck where a pull’s mark should cover the first pull’s, and write down how far off
        it lies. Do so on several decks pulled with the screen left as it is: the spread is your hand’s
        register.
      </p>
      {pull ? (
        <>
          <Pick
            label="Pull"
            value={String(at)}
            options={pulls.map((p, i) => ({
              value: String(i),
              label: `${p.face} ${p.pull} ${p.ink.name}`,
            }))}
            onChange={(v) => setChosen(Number(v))}
          />
          <div className="fields">
            <NumberBox
              label="To the nose +"
              value={along}
              min={-50}
              max={50}
              step={0.05}
              digits={2}
              unit="mm"
              onChange={setAlong}
            />
            <NumberBox
              label="Away from you +"
              value={across}
              min={-50}
              max={50}
              step={0.05}
              digits={2}
              unit="mm"
              onChange={setAcross}
            />
          </div>
          <div className="button-row">
            <button type="button" onClick={write}>
              Write down
            </button>
          </div>
        </>
      ) : (
        <p className="empty">Choose two inks or more first.</p>
      )}
      {screens.length > 0 && (
        <table className="plain-table">
          <thead>
            <tr>
              <th scope="col">screen</th>
              <th scope="col" className="number">
                readings
              </th>
              <th scope="col">sits off by, along and across</th>
            </tr>
          </thead>
          <tbody>
            {screens.map(({ face, inkId, readings }) => {
              const { dx, dy } = screenOffset(readings);
              return (
                <tr key={`${face} ${inkId}`}>
                  <td>{nameOf(face, inkId)}</td>
                  <td className="number">{readings.length}</td>
                  <td>
                    {say(dx)}, {say(dy)}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      {screens.length > 0 && !learned && (
        <p className="hint">A screen must be read on two decks before it says how much it strays.</p>
      )}
      {learned && tolerance !== null && (
        <>
          <p>
            <b>19 pulls in 20 stay within {say(tolerance)}</b> of where their screen sits; standard deviation{' '}
            {say(learned.deviation.dx)} along, {say(learned.deviation.dy)} across, from {learned.readings}{' '}
            readings.
          </p>
          {learned.readings < ENOUGH_READINGS && (
            <p className="hint">
              That is a first hint; with {ENOUGH_READINGS} readings or more you can lean on it.
            </p>
          )}
          <button
            type="button"
            className="button-main"
            disabled={job.press.registerTolerance === tolerance}
            onClick={() =>
              edit('Take register from the log', (j) => changePress(j, { registerTolerance: tolerance }))
            }
          >
            {job.press.registerTolerance === tolerance
              ? `In use: ${say(tolerance)}`
              : `Reckon with ${say(tolerance)} (now ${say(job.press.registerTolerance)})`}
          </button>
        </>
      )}
    </Card>
  );
}
