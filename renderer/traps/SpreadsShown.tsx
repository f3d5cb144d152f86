import { useEffect, useState } from 'react';
import { Card } from '../bench/index.ts';
import { formatLength, hatchGround, useStudio } from '../state/index.ts';

/** CSS pixels a millimetre at which half a millimetre of trap is seen well. */
const CLOSE = 14;

/** What is hatched on the deck and how to tell it apart; a chosen pair is gone to, place by place. */
export function SpreadsShown() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const pair = useStudio((s) => s.pair);
  const proofs = useStudio((s) => s.proofs);
  const { traps, inks } = job.faces[face];
  const [at, setAt] = useState(0);
  const drawn = pair !== null && proofs?.pair === pair && proofs.face === face ? proofs : null;
  const places = drawn?.places ?? [];
  const goTo = (n: number) => {
    const place = places[n];
    if (!place) return;
    setAt(n);
    useStudio.setState({ fitted: false, view: { ...place, scale: CLOSE } });
  };
  const ready = drawn !== null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: goes there once, when the pair's picture is first there
  useEffect(() => {
    if (ready) goTo(0);
  }, [pair, ready]);
  // Another face has other pairs.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the pair is let go when the face changes, not when it is chosen
  useEffect(() => () => useStudio.setState({ pair: null }), [face]);
  const from = inks.findIndex((ink) => ink.id === pair?.spreads);
  const under = inks.find((ink) => ink.id === pair?.under);
  const base = inks.find((ink) => ink.role === 'base');
  const hatch = (kind: number | 'choke', hex: string) => (
    <span
      className={`hatch hatch-${kind === 'choke' ? kind : kind % 6}`}
      style={{ color: hex, backgroundColor: hatchGround(hex) }}
    />
  );
  if (pair && from >= 0 && under)
    return (
      <Card
        title="On the deck: one pair"
        action={
          <button type="button" className="tape-button" onClick={() => useStudio.setState({ pair: null })}>
            Show all
          </button>
        }
      >
        <ul className="found">
          <li>
            {hatch(from, inks[from]!.hex)}
            <b>
              {inks[from]!.name} under {under.name}
            </b>
          </li>
        </ul>
        {ready && places.length === 0 && <p className="hint">These two meet nowhere on this face.</p>}
        {places.length > 0 && (
          <div className="button-row">
            <span>
              Place {Math.min(at, places.length - 1) + 1} of {places.length}, most of it first
            </span>
            <button type="button" onClick={() => goTo((at + 1) % places.length)}>
              Next place
            </button>
          </div>
        )}
      </Card>
    );
  return (
    <Card title="On the deck">
      <p className="hint">
        Spreads are hatched in the colour of the ink that spreads; each ink has its own hatch. Zoom in to see
        them at the border, or choose a pair in the table.
      </p>
      <ul className="found">
        {inks.map((ink, i) =>
          ink.role === 'base' ? null : (
            <li key={ink.id}>
              {hatch(i, ink.hex)}
              <b>{ink.name}</b>
            </li>
          ),
        )}
        {base && (
          <li>
            {hatch('choke', base.hex)}
            <b>{base.name}, drawn in</b>
            <small>stays inside by {formatLength(traps.choke, job.units, 2)}</small>
          </li>
        )}
      </ul>
    </Card>
  );
}
