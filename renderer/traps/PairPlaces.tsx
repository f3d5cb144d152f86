import { useEffect, useState } from 'react';
import { useStudio } from '../state/index.ts';

/** CSS pixels a millimetre at which half a millimetre of trap is seen well. */
const CLOSE = 14;

/** Goes to where the chosen pair's spread lies, place by place, as soon as it is drawn. */
export function PairPlaces() {
  const face = useStudio((s) => s.face);
  const pair = useStudio((s) => s.pair);
  const proofs = useStudio((s) => s.proofs);
  const [at, setAt] = useState(0);
  const ready = pair !== null && proofs?.pair === pair && proofs.face === face;
  const places = ready ? proofs.places : [];
  const goTo = (n: number) => {
    const place = places[n];
    if (!place) return;
    setAt(n);
    useStudio.setState({ fitted: false, view: { ...place, scale: CLOSE } });
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: goes there once, when the pair's picture is first there
  useEffect(() => {
    if (ready) goTo(0);
  }, [pair, ready]);
  if (!ready) return <span className="hint">Drawing this pair…</span>;
  return (
    <div className="pair-places">
      {places.length === 0 ? (
        <span>These two meet nowhere on this face.</span>
      ) : (
        <span>
          Place {Math.min(at, places.length - 1) + 1} of {places.length}, most of it first
        </span>
      )}
      {places.length > 1 && (
        <button type="button" onClick={() => goTo((at + 1) % places.length)}>
          Next place
        </button>
      )}
      <button type="button" onClick={() => useStudio.setState({ pair: null, fitted: true })}>
        Show all
      </button>
    </div>
  );
}
