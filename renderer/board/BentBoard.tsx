import { useEffect, useRef, useState } from 'react';
import { useStudio } from '../state/index.ts';
import type { BentView } from './bentScene.ts';

/** The board as the wood bends it, over the bench; drag to turn it. */
export function BentBoard() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const deck = useStudio((s) => s.job!.deck);
  const face = useStudio((s) => s.face);
  const proofs = useStudio((s) => s.proofs);
  const veneerHex = useStudio(
    (s) => (s.job!.veneers.find((v) => v.id === s.veneerId) ?? s.job!.veneers[0]!).hex,
  );
  const view = useRef<BentView>({ kept: null });
  const [trouble, setTrouble] = useState(false);
  useEffect(() => {
    let stop: (() => void) | undefined;
    let gone = false;
    // The 3-D library is large and loaded only when it is asked for.
    import('./bentScene.ts')
      .then(({ showBent }) => {
        if (gone || !canvas.current) return;
        const own = proofs?.face === face ? proofs : null;
        stop = showBent(
          canvas.current,
          deck,
          {
            face,
            picture: own?.proof ?? null,
            box: own?.box ?? { x: -500, y: -150, width: 1000, height: 300 },
            veneerHex,
          },
          view.current,
        );
      })
      .catch(() => setTrouble(true));
    return () => {
      gone = true;
      stop?.();
    };
  }, [deck, face, proofs, veneerHex]);
  return (
    <div className="bent">
      <canvas ref={canvas} role="img" aria-label={`The bent board, ${face} face towards you`} />
      {trouble && <p className="empty">This machine can not draw in three dimensions.</p>}
    </div>
  );
}
