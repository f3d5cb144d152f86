import { useState } from 'react';
import { reprintOf } from '../../core/reprint.ts';
import { pullsOf } from '../../core/runOf.ts';
import { Card, Pick, TextBox } from '../bench/index.ts';
import { edit, tell, useStudio } from '../state/index.ts';

const DRAWN = '-';
const FRESH = '+';

/** Another run of the same films: which colourway, and what the last run said. */
export function ReprintCard() {
  const job = useStudio((s) => s.job)!;
  const [way, setWay] = useState(DRAWN);
  const [name, setName] = useState('New colourway');
  const [remember, setRemember] = useState('Last run');
  const [hexes, setHexes] = useState<Readonly<Record<string, string>>>({});
  const pulls = pullsOf(job);
  const inks = pulls.filter(({ ink }, i) => pulls.findIndex((p) => p.ink.id === ink.id) === i);
  const earlier = job.press.earlier ?? [];
  const begin = () => {
    const colours = Object.fromEntries(
      inks.flatMap(({ ink }) => {
        const hex = hexes[ink.id];
        return hex === undefined || hex === ink.hex ? [] : [[ink.id, { name: ink.name, hex }]];
      }),
    );
    const made = reprintOf(job, {
      remember,
      colourway: way === DRAWN || way === FRESH ? null : way,
      ...(way === FRESH ? { fresh: { name, colours } } : {}),
    });
    if (!made.ok) {
      tell('trouble', made.reason, made.mend);
      return;
    }
    edit('Begin a reprint', () => made.value);
    const chosen = made.value.press.lots?.[0]?.colourwayId ?? null;
    useStudio.setState({ colourwayId: chosen });
    setWay(chosen ?? DRAWN);
    tell('done', 'The reprint is begun: films, meshes and settings as they were last, nothing ticked yet.');
  };
  return (
    <Card title="Print it again">
      <p className="hint">
        The films stay as they are. Meshes, exposures, strokes and times stay as they were last; ticks,
        corrections and the log begin afresh, and the run that is over is kept below.
      </p>
      <Pick
        label="Colourway of the reprint"
        value={way}
        options={[
          { value: DRAWN, label: 'inks as drawn' },
          ...job.colourways.slice(1).map((c) => ({ value: c.id, label: c.name })),
          { value: FRESH, label: 'a new one…' },
        ]}
        onChange={setWay}
      />
      {way === FRESH && (
        <>
          <div className="field">
            <span>Its name</span>
            <TextBox label="Name of the new colourway" value={name} onChange={setName} />
          </div>
          <ul className="reprint-inks">
            {inks.map(({ ink }) => (
              <li key={ink.id}>
                <input
                  type="color"
                  aria-label={`${ink.name} in the new colourway`}
                  value={hexes[ink.id] ?? ink.hex}
                  onChange={(e) => setHexes({ ...hexes, [ink.id]: e.target.value })}
                />{' '}
                {ink.name}
              </li>
            ))}
          </ul>
        </>
      )}
      <div className="field">
        <span>Remember the run that is over as</span>
        <TextBox label="Name of the run that is over" value={remember} onChange={setRemember} />
      </div>
      <button type="button" disabled={pulls.length === 0} onClick={begin}>
        Begin a reprint
      </button>
      {earlier.length > 0 && (
        <ul className="earlier-runs" aria-label="Earlier runs">
          {[...earlier].reverse().map((run) => {
            const sum = (kind: string) =>
              run.log.filter((line) => line.kind === kind).reduce((n, line) => n + line.decks, 0);
            const decks = run.lots.reduce((n, lot) => n + lot.decks, 0);
            return (
              <li key={JSON.stringify(run)}>
                <details>
                  <summary>
                    <b>{run.name}</b>: {decks} decks wanted, {sum('spoiled')} spoiled, {sum('rescued')}{' '}
                    rescued
                  </summary>
                  {[
                    ...run.registerTests.map((test) => `Register: ${test.words}`),
                    ...run.log.map((line) => line.words),
                  ]
                    .filter((words) => words !== '')
                    .slice(-12)
                    .map((words) => (
                      <p className="hint" key={words}>
                        {words}
                      </p>
                    ))}
                </details>
              </li>
            );
          })}
        </ul>
      )}
    </Card>
  );
}
