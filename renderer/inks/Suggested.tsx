import { useState } from 'react';
import { inkFrom } from '../../core/job/index.ts';
import { Card } from '../bench/index.ts';
import { edit, onFace, useStudio } from '../state/index.ts';
import { back } from '../workers/index.ts';

type Found = Awaited<ReturnType<typeof back.suggest>>;

/** Inks found in the art, as many as the user is ready to pull. */
export function Suggested() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { art, inks } = job.faces[face];
  const [count, setCount] = useState<number | null>(null);
  const [found, setFound] = useState<Found | null>(null);
  const [busy, setBusy] = useState(false);
  const piece = art.findLast((a) => !a.hidden);
  if (!piece) return null;
  const look = async (n: number | null) => {
    setCount(n);
    setBusy(true);
    try {
      setFound(await back.suggest(piece.hash, n, piece.ground));
    } finally {
      setBusy(false);
    }
  };
  const take = () => {
    if (!found) return;
    edit('Take suggested inks', (j) =>
      onFace(j, face, (f) => {
        const next = f.inks.filter((i) => i.role === 'base');
        for (const { name, hex } of found) {
          const kept = f.inks.find((i) => i.hex === hex && i.role === 'colour');
          next.push(kept ?? inkFrom({ name, hex }, next));
        }
        return { ...f, inks: next };
      }),
    );
    useStudio.setState({ inkId: null, aloneId: null });
    setFound(null);
  };
  return (
    <Card title="Inks in the art">
      <p className="hint">
        Found in “{piece.name}”, light to dark. Each ink is one more screen to burn and one more pull.
      </p>
      <fieldset className="counts" aria-label="How many inks">
        <button type="button" aria-pressed={count === null && found !== null} onClick={() => void look(null)}>
          as drawn
        </button>
        {[2, 3, 4, 5, 6, 7, 8].map((n) => (
          <button key={n} type="button" aria-pressed={count === n} onClick={() => void look(n)}>
            {n}
          </button>
        ))}
      </fieldset>
      <div aria-live="polite" aria-busy={busy}>
        {busy && <p className="hint">Looking at the art…</p>}
        {found && !busy && (
          <>
            <ul className="found">
              {found.map((f) => (
                <li key={f.hex}>
                  <span className="ink-drop" style={{ background: f.hex }} />
                  <b>{f.name}</b>
                  <small>{(f.share * 100).toFixed(f.share < 0.01 ? 2 : 0)} %</small>
                </li>
              ))}
            </ul>
            <button type="button" className="button-main" onClick={take} disabled={found.length === 0}>
              {inks.length > 0 ? `Use these ${found.length} instead` : `Use these ${found.length} inks`}
            </button>
          </>
        )}
      </div>
    </Card>
  );
}
