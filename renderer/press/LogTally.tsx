import { lotTallies } from '../../core/runLog.ts';
import { pullsOf } from '../../core/runOf.ts';
import { useStudio } from '../state/index.ts';

/** Decks printed in each lot, pull by pull, and how many are left. */
export function LogTally() {
  const job = useStudio((s) => s.job)!;
  const pulls = pullsOf(job);
  return (
    <div className="scroll-across">
      <table className="plain-table" aria-label="Printed so far, by lot and pull">
        <thead>
          <tr>
            <th>lot</th>
            {pulls.map(({ face, ink, pull }) => (
              <th key={`${face} ${ink.id}`} className="number" title={`${face} ${ink.name}`}>
                <span className="ink-drop" style={{ background: ink.hex }} /> {face === 'top' ? 'top ' : ''}
                {pull}
              </th>
            ))}
            <th className="number">left</th>
          </tr>
        </thead>
        <tbody>
          {lotTallies(job).map((lot) => (
            <tr key={`${lot.veneerId} ${lot.colourwayId}`}>
              <td>
                {lot.veneer}, {lot.colourway}
              </td>
              {lot.pulls.map((tally, i) => (
                <td key={pulls[i]!.face + pulls[i]!.ink.id} className="number">
                  {tally.printed || '–'}
                  {tally.spoiled > 0 && (
                    <small>
                      {' '}
                      −{tally.spoiled}
                      {tally.rescued > 0 ? ` +${tally.rescued}` : ''}
                    </small>
                  )}
                </td>
              ))}
              <td className="number">
                {lot.left} of {lot.start}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
