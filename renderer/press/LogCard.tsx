import type { LogEntry } from '../../core/job/index.ts';
import { lotsOf, pullsOf } from '../../core/runOf.ts';
import { Card, LogTable } from '../bench/index.ts';
import { changePress, edit, formatLength, useStudio } from '../state/index.ts';
import { LogForm } from './LogForm.tsx';
import { LogTally } from './LogTally.tsx';

/** Lines that are listed, newest first. */
const LISTED = 40;

/** What happened at the press, per pull, lot and deck. */
export function LogCard() {
  const job = useStudio((s) => s.job)!;
  const log = job.press.log ?? [];
  const lots = lotsOf(job);
  const total = (what: LogEntry['kind']) =>
    log.filter((line) => line.kind === what).reduce((n, line) => n + line.decks, 0);
  const printed = total('printed');
  const spoiled = total('spoiled');
  const lost = spoiled - total('rescued');
  const pulls = pullsOf(job);
  const nameOf = ({ face, inkId }: LogEntry) =>
    `${face} ${pulls.find((p) => p.face === face && p.ink.id === inkId)?.ink.name ?? inkId}`;
  const lotName = (line: LogEntry) => {
    const lot = lots.find(
      (one) => one.veneerId === line.veneerId && one.colourwayId === (line.colourwayId ?? null),
    );
    return lot ? `${lot.veneer}, ${lot.colourway}` : '';
  };
  return (
    <Card title="Log" wide>
      <LogForm />
      {log.length === 0 ? (
        <p className="empty">
          Tests, printed, spoiled and rescued decks go here. The plan is made anew from what is printed, and a
          reprint looks back on it.
        </p>
      ) : (
        <>
          <LogTally />
          <LogTable
            name="Log, newest first"
            columns={[
              { head: 'pull' },
              { head: 'what' },
              { head: 'decks', number: true },
              { head: 'which' },
              { head: 'notes' },
            ]}
            lines={log}
            most={LISTED}
            cells={(line) => [
              nameOf(line),
              line.kind,
              line.decks === 0 ? '' : line.decks,
              `${lotName(line)} ${line.deckNumbers ? `no. ${line.deckNumbers}` : ''}`,
              <>
                {line.words}
                {line.photo && <small> photo: {line.photo}</small>}
                {line.along !== undefined && line.across !== undefined && (
                  <small>
                    {' '}
                    off by {formatLength(line.along, job.units, 2)} along,{' '}
                    {formatLength(line.across, job.units, 2)} across
                  </small>
                )}
              </>,
            ]}
            removeName={(n) => `Remove line ${n} of the log`}
            remove={(at) =>
              edit('Remove a line of the log', (j) =>
                changePress(j, { log: (j.press.log ?? []).filter((_, k) => k !== at) }),
              )
            }
          />
        </>
      )}
      {printed + spoiled > 0 && lost >= 0 && (
        <div className="row-buttons">
          <span>
            {printed} printed, {lost} lost: {((lost / (printed + spoiled)) * 100).toFixed(1)} % a pull.
          </span>
          <button
            type="button"
            onClick={() =>
              edit('Take spoilage from the log', (j) =>
                changePress(j, {
                  spoilPerPull: Math.min(0.5, Number((lost / (printed + spoiled)).toFixed(4))),
                }),
              )
            }
          >
            Use it as spoilage
          </button>
        </div>
      )}
    </Card>
  );
}
