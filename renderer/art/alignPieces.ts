import type { Art } from '../../core/job/index.ts';

/** Where pieces are brought: to a side or the middle of their common box, or spread at even gaps. */
export type Arrange =
  | 'tail'
  | 'middle'
  | 'nose'
  | 'up'
  | 'centre'
  | 'down'
  | 'spread along'
  | 'spread across';

/** Half the width and height of the upright box about a turned piece, mm. */
export function halfExtent(piece: Art): { readonly x: number; readonly y: number } {
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  return {
    x: (piece.width * cos + piece.height * sin) / 2,
    y: (piece.width * sin + piece.height * cos) / 2,
  };
}

/** Even gaps between boxes in the order they lie; the first and last stay. */
function spread(art: readonly Art[], axis: 'x' | 'y'): Map<string, number> {
  const order = [...art].sort((a, b) => a[axis] - b[axis]);
  const first = order[0]!;
  const last = order.at(-1)!;
  const half = (a: Art) => halfExtent(a)[axis];
  const room = last[axis] + half(last) - (first[axis] - half(first));
  const gap = (room - order.reduce((sum, a) => sum + 2 * half(a), 0)) / (order.length - 1);
  const out = new Map<string, number>();
  let at = first[axis] - half(first);
  for (const piece of order) {
    out.set(piece.id, at + half(piece));
    at += 2 * half(piece) + gap;
  }
  return out;
}

/**
 * New centres of the pieces, by id. Boxes are those that stand upright about turned pieces; +x is to the nose and +y up as
 * the face is seen. Fewer than two pieces, or than three to spread, stay where they are.
 */
export function arranged(art: readonly Art[], how: Arrange): Map<string, Partial<Pick<Art, 'x' | 'y'>>> {
  const axis = how === 'tail' || how === 'middle' || how === 'nose' || how === 'spread along' ? 'x' : 'y';
  const spreads = how === 'spread along' || how === 'spread across';
  if (art.length < (spreads ? 3 : 2)) return new Map();
  const low = Math.min(...art.map((a) => a[axis] - halfExtent(a)[axis]));
  const high = Math.max(...art.map((a) => a[axis] + halfExtent(a)[axis]));
  const even = spreads ? spread(art, axis) : null;
  const to = (a: Art) => {
    if (even) return even.get(a.id)!;
    if (how === 'tail' || how === 'down') return low + halfExtent(a)[axis];
    if (how === 'nose' || how === 'up') return high - halfExtent(a)[axis];
    return (low + high) / 2;
  };
  return new Map(art.map((a) => [a.id, { [axis]: to(a) }]));
}
