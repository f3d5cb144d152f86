import { runCounts } from '../../core/runCounts.ts';
import { pullsOf } from '../../core/runOf.ts';
import { Card, Measure, NumberBox } from '../bench/index.ts';
import { changePress, edit, freshMeasures, useStudio } from '../state/index.ts';

/** What to buy and what a deck costs: from the measured films, else from the preview of the face that is shown. */
export function ShoppingCard() {
  const job = useStudio((s) => s.job)!;
  const measures = useStudio((s) => s.measures);
  const proofs = useStudio((s) => s.proofs);
  const plan = useStudio((s) => s.filmPlan);
  const measured = freshMeasures({ job, measures });
  const shown = pullsOf(job).flatMap(({ face, ink }) => {
    const cm2 = proofs?.face === face ? proofs.prints.get(ink.id)?.cm2 : undefined;
    const sheets =
      plan?.face === face ? plan.films.find((film) => film.inkId === ink.id)?.sheets.length : undefined;
    return cm2 === undefined ? [] : [{ face, inkId: ink.id, inkedCm2: cm2, sheets: sheets ?? 0 }];
  });
  const films = measured ?? shown;
  const found = films.length > 0 ? runCounts(job, films) : null;
  const { press } = job;
  // Sheets are only known once the films are laid out: rather no line than a nought.
  const laidOut = films.every((film) => film.sheets > 0);
  return (
    <Card title="What to buy">
      {found === null && (
        <p className="hint">Worked out when the face is drawn, or the films are measured.</p>
      )}
      {found && !found.ok && (
        <p className="worked-trouble">
          {found.reason} {found.mend}
        </p>
      )}
      {found?.ok && (
        <>
          {found.value.count.costPerDeck !== null && (
            <div className="measures">
              <Measure value={found.value.count.costPerDeck.toFixed(2)} label="a good deck costs" />
              <Measure value={(found.value.count.cost ?? 0).toFixed(2)} label="all that is priced" />
            </div>
          )}
          <table className="plain-table" aria-label="Shopping list">
            <tbody>
              {found.value.shopping
                .filter(([what]) => laidOut || !what.startsWith('Film sheets'))
                .map(([what, amount]) => (
                  <tr key={what}>
                    <td>{what}</td>
                    <td>{amount}</td>
                  </tr>
                ))}
            </tbody>
          </table>
          {found.value.count.unpriced.length > 0 && (
            <p className="hint">Without a price yet: {found.value.count.unpriced.join(', ')}.</p>
          )}
          {!measured && (
            <p className="hint">
              From the preview of the face that is shown. “Measure the films” at Screens counts both faces as
              they are printed; ink prices are entered there too.
            </p>
          )}
        </>
      )}
      <div className="fields">
        <NumberBox
          label="A blank costs"
          value={press.deckPrice ?? 0}
          min={0}
          max={1e9}
          onChange={(deckPrice) => edit('Change price', (j) => changePress(j, { deckPrice }), 'deck price')}
        />
        <NumberBox
          label="A film sheet costs"
          value={press.sheetPrice ?? 0}
          min={0}
          max={1e9}
          onChange={(sheetPrice) =>
            edit('Change price', (j) => changePress(j, { sheetPrice }), 'sheet price')
          }
        />
      </div>
    </Card>
  );
}
