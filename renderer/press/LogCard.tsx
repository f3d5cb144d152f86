import { useState } from 'react';
import { pullsOf } from '../../core/runOf.ts';
import { Card, NumberBox, Pick } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

const KINDS = ['test', 'printed', 'spoiled', 'rescued', 'note'] as const;
type Kind = (typeof KINDS)[number];

/** What happened at the press, per pull. */
export function LogCard() {
  const job = useStudio((s) => s.job)!;
  const pulls = pullsOf(job);
  const log = job.press.log ?? [];
  const [at, setAt] = useState(0);
  const [kind, setKind] = useState<Kind>('printed');
  const [decks, setDecks] = useState(1);
  const [words, setWords] = useState('');
  const pull = pulls[Math.min(at, pulls.length - 1)];
  const total = (what: Kind) => log.filter((l) => l.kind === what).reduce((n, l) => n + l.decks, 0);
  const printed = total('printed');
  const spoiled = total('spoiled');
  const lost = spoiled - total('rescued');
  const nameOf = (face: string, inkId: string) =>
    pulls.find((p) => p.face === face && p.ink.id === inkId)?.ink.name ?? inkId;
  return (
    <Card title="Log" wide>
      {pull && (
        <div className="log-line">
          <Pick
            label="Pull"
            value={String(Math.min(at, pulls.length - 1))}
            options={pulls.map((p, i) => ({ value: String(i), label: `${p.face} ${p.pull} ${p.ink.name}` }))}
            onChange={(v) => setAt(Number(v))}
          />
          <Pick
            label="What"
            value={kind}
            options={KINDS.map((k) => ({ value: k, label: k }))}
            onChange={setKind}
          />
          <NumberBox
            label="Decks"
            value={decks}
            min={0}
            max={10_000}
            digits={0}
            onChange={(n) => setDecks(Math.round(n))}
          />
          <div className="field">
            <label htmlFor="log-words">Notes, or a photo’s path</label>
            <input id="log-words" value={words} maxLength={2000} onChange={(e) => setWords(e.target.value)} />
          </div>
          <button
            type="button"
            onClick={() => {
              edit('Write in the log', (j) =>
                changePress(j, {
                  log: [...(j.press.log ?? []), { face: pull.face, inkId: pull.ink.id, kind, decks, words }],
                }),
              );
              setWords('');
            }}
          >
            Write
          </button>
        </div>
      )}
      {log.length === 0 ? (
        <p className="empty">
          Tests, printed, spoiled and rescued decks go here; a reprint begins from them.
        </p>
      ) : (
        <table className="plain-table">
          <thead>
            <tr>
              <th>pull</th>
              <th>what</th>
              <th className="number">decks</th>
              <th>notes</th>
            </tr>
          </thead>
          <tbody>
            {log
              .map((line, i) => ({ line, i }))
              .slice(-40)
              .reverse()
              .map(({ line, i }) => (
                <tr key={i}>
                  <td>
                    {line.face} {nameOf(line.face, line.inkId)}
                  </td>
                  <td>{line.kind}</td>
                  <td className="number">{line.decks === 0 ? '' : line.decks}</td>
                  <td>{line.words}</td>
                </tr>
              ))}
          </tbody>
        </table>
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
