import { useState } from 'react';
import { isToned, takeInks } from '../../core/job/index.ts';
import { shelfOf } from '../../core/shop/index.ts';
import { Card, Picture, Toggle } from '../bench/index.ts';
import { changeFace, edit, useStudio } from '../state/index.ts';
import { type SuggestedInks, suggestedInks } from '../workers/index.ts';

const COUNTS = [2, 3, 4, 5, 6, 7, 8];

/** Inks found in the art, as many as the user is ready to pull; one fewer and one more beside them. */
export function Suggested() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const shop = useStudio((s) => s.shop);
  const shelf = shelfOf(shop);
  const veneerId = useStudio((s) => s.veneerId);
  const settings = job.faces[face];
  const { art: pieces, inks } = settings;
  const [count, setCount] = useState<number | null>(null);
  const [tried, setTried] = useState<readonly SuggestedInks[] | null>(null);
  const [snap, setSnap] = useState(false);
  const [busy, setBusy] = useState(false);
  const piece = pieces.findLast((a) => !a.hidden);
  if (!piece) return null;
  const snapped = snap && shelf.length > 0;
  const look = async (n: number | null, toShelf: boolean) => {
    const picture = useStudio.getState().pictures.get(piece.hash);
    const drawn = picture?.image.getContext('2d')?.getImageData(0, 0, picture.width, picture.height);
    if (!drawn) return;
    const art = { width: drawn.width, height: drawn.height, data: drawn.data };
    setCount(n);
    setBusy(true);
    try {
      const kept = inks.filter((ink) => ink.kept && ink.role === 'colour');
      const bare = job.veneers.find((v) => v.id === veneerId) ?? job.veneers[0]!;
      setTried(
        await suggestedInks(art, n, {
          ground: piece.ground,
          shelf: toShelf ? shelf.map(({ name, hex }) => ({ name, hex })) : undefined,
          kept: kept.map((ink) => ink.matches ?? ink.hex),
          bare: bare.hex,
          toned: isToned(settings),
        }),
      );
    } finally {
      setBusy(false);
    }
  };
  const take = (found: SuggestedInks['inks']) => {
    edit(`Take ${found.length} suggested inks`, (j) => {
      const own = found.map(({ name, hex }) => ({ ...shelf.find((ink) => ink.hex === hex), name, hex }));
      return changeFace(j, face, takeInks(j.faces[face], own));
    });
    useStudio.setState({ inkId: null, aloneId: null });
    setTried(null);
  };
  return (
    <Card title="Inks in the art" wide={tried !== null && tried.length > 1}>
      <p className="hint">
        Found in “{piece.name}”, light to dark. Each ink is one more screen to burn and one more pull.
      </p>
      <fieldset className="counts" aria-label="How many inks">
        <button
          type="button"
          aria-pressed={count === null && tried !== null}
          onClick={() => void look(null, snapped)}
        >
          as advised
        </button>
        {COUNTS.map((n) => (
          <button key={n} type="button" aria-pressed={count === n} onClick={() => void look(n, snapped)}>
            {n}
          </button>
        ))}
      </fieldset>
      {shelf.length > 0 && (
        <Toggle
          label="Only inks of my shelf"
          on={snap}
          onChange={(on) => {
            setSnap(on);
            if (tried) void look(count, on);
          }}
        />
      )}
      <div aria-live="polite" aria-busy={busy}>
        {busy && <p className="hint">Looking at the art…</p>}
        {tried && !busy && tried.length === 0 && <p className="hint">The art has nothing to print.</p>}
        {tried && !busy && tried.length > 0 && (
          <>
            <div className="tried">
              {tried.map((set) => (
                <Tried
                  key={set.inks.length}
                  set={set}
                  middle={set === middleOf(tried, count)}
                  take={() => take(set.inks)}
                />
              ))}
            </div>
            {count !== null && !tried.some((set) => set.inks.length === count) && (
              <p className="hint">The art has no {count} colours of its own.</p>
            )}
            <p className="hint">
              How far colours are from the art, as ΔE00: below 1 no one sees it; from 5 on it shows at a
              glance.
            </p>
          </>
        )}
      </div>
    </Card>
  );
}

/** The set asked for: the art may have fewer colours than that. */
const middleOf = (tried: readonly SuggestedInks[], count: number | null) =>
  tried.find((set) => (count === null ? set.advised : set.inks.length === count)) ??
  tried.findLast((set) => !set.beyond);

/** One set of inks: how the art looks in them, how far off that is, and one click to take it. */
function Tried({ set, middle, take }: { set: SuggestedInks; middle: boolean; take: () => void }) {
  const { inks, figures, proof, advised, beyond } = set;
  const n = inks.length;
  return (
    <section className={`try${middle ? ' try-chosen' : ''}`} aria-label={`${n} inks`}>
      <h3>
        {n} {n === 1 ? 'ink' : 'inks'}
        {advised && <small> advised</small>}
      </h3>
      <Picture bitmap={proof} label={`The art in ${n} inks`} />
      <ul className="try-drops">
        {inks.map((ink) => (
          <li key={ink.hex} title={`${ink.name}, ${share(ink.share)} of what is inked`}>
            <span className="ink-drop" style={{ background: ink.hex }} />
            <span className="unseen">
              {ink.name}, {share(ink.share)}
            </span>
          </li>
        ))}
      </ul>
      <dl className="try-figures">
        <dt>mean</dt>
        <dd>{figures.mean.toFixed(1)}</dd>
        <dt>95 in 100 below</dt>
        <dd>{figures.most.toFixed(1)}</dd>
        <dt>off by 5 or more</dt>
        <dd>{share(figures.off)}</dd>
      </dl>
      <button type="button" className={middle ? 'button-main' : ''} onClick={take}>
        Use these {n}
      </button>
      {beyond && (
        <p className="hint">
          One more than the art has: a shade of its soft edges, to see what it would gain.
        </p>
      )}
    </section>
  );
}

const share = (part: number): string =>
  `${(part * 100).toFixed(part > 0 && part < 0.01 ? 2 : part < 0.1 ? 1 : 0)} %`;
