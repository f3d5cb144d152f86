import { countRun, USUAL } from '../../core/press/index.ts';
import { lotTallies } from '../../core/runLog.ts';
import { lotsOf, pullsOf } from '../../core/runOf.ts';
import { Card, Measure, NumberBox, Pick } from '../bench/index.ts';
import { Worked } from '../screens/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

const DRAWN = '-';

/** Decks by veneer and colourway, spare ones, and how many are left. */
export function RunCard() {
  const job = useStudio((s) => s.job)!;
  const { press } = job;
  const pulls = pullsOf(job);
  const spoil = press.spoilPerPull ?? USUAL.spoilPerPull.value;
  const lots =
    press.lots ??
    job.veneers.map((v) => ({ veneerId: v.id, colourwayId: null as string | null, decks: v.decks }));
  const setLots = (next: typeof lots, squash: string | null = null) =>
    edit('Change the decks of the run', (j) => changePress(j, { lots: next }), squash);
  const change = (at: number, part: Partial<(typeof lots)[number]>) =>
    setLots(
      lots.map((lot, i) => (i === at ? { ...lot, ...part } : lot)),
      `lot ${at} ${Object.keys(part)}`,
    );
  const found = countRun({
    lots: lotsOf(job).map((l) => ({ veneer: l.veneer, colourway: l.colourway, decks: l.good })),
    pulls: pulls.length,
    spoilPerPull: spoil,
    sheets: pulls.map(() => 1),
    goods: [],
    deckPrice: null,
  });
  const tallies = lotTallies(job);
  const ways = [
    { value: DRAWN, label: 'inks as drawn' },
    ...job.colourways.slice(1).map((c) => ({ value: c.id, label: c.name })),
  ];
  return (
    <Card title="The run" wide>
      <Worked found={found}>
        {({ good, start, screens }) => (
          <div className="measures">
            <Measure value={String(good)} label="good decks" />
            <Measure value={String(start)} label="blanks to start with" />
            <Measure value={String(screens)} label="screens" />
            <Measure value={String(start * pulls.length)} label="pulls in all" />
          </div>
        )}
      </Worked>
      <table className="plain-table lots">
        <thead>
          <tr>
            <th>veneer</th>
            <th>colourway</th>
            <th>good decks</th>
            <th className="number">start with</th>
            <th className="number">left</th>
            <th />
          </tr>
        </thead>
        <tbody>
          {lots.map((lot, i) => {
            const veneer = job.veneers.find((v) => v.id === lot.veneerId);
            const started = lotsOf({ ...job, press: { ...press, lots: [lot] } })[0];
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: lots have no names of their own
              <tr key={i}>
                <td>
                  <Pick
                    label="Veneer"
                    hideLabel
                    value={lot.veneerId}
                    options={job.veneers.map((v) => ({ value: v.id, label: v.name }))}
                    onChange={(veneerId) => change(i, { veneerId })}
                  />
                </td>
                <td>
                  <Pick
                    label="Colourway"
                    hideLabel
                    value={lot.colourwayId ?? DRAWN}
                    options={ways}
                    onChange={(id) => change(i, { colourwayId: id === DRAWN ? null : id })}
                  />
                </td>
                <td>
                  <NumberBox
                    label={`Decks of ${veneer?.name ?? 'lot'}`}
                    hideLabel
                    value={lot.decks}
                    min={0}
                    max={10_000}
                    digits={0}
                    onChange={(n) => change(i, { decks: Math.round(n) })}
                  />
                </td>
                <td className="number">{started?.start ?? 0}</td>
                <td className="number">
                  {tallies.find((t) => t.veneerId === lot.veneerId && t.colourwayId === lot.colourwayId)
                    ?.left ?? ''}
                </td>
                <td>
                  {lots.length > 1 && (
                    <button type="button" onClick={() => setLots(lots.filter((_, k) => k !== i))}>
                      Remove
                    </button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <div className="row-buttons">
        <button
          type="button"
          onClick={() =>
            setLots([
              ...lots,
              { veneerId: job.veneers[0]!.id, colourwayId: job.colourways[1]?.id ?? null, decks: 1 },
            ])
          }
        >
          Add a lot
        </button>
      </div>
      <div className="fields">
        <NumberBox
          label="A pull spoils"
          value={spoil * 100}
          min={0}
          max={50}
          step={0.5}
          unit="%"
          onChange={(n) =>
            edit('Change spoilage', (j) => changePress(j, { spoilPerPull: n / 100 }), 'spoilage')
          }
        />
      </div>
    </Card>
  );
}
