import { traceTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';

type Pair = readonly [number, number];

/** Which truck holes were clicked, as places in the order of `truckHoles` (tail to nose, the lower of each pair first). */
export const HOLE_CHOICES = {
  /** All eight. */
  all: [0, 1, 2, 3, 4, 5, 6, 7],
  /** The four furthest from mid-wheelbase. */
  outer: [0, 1, 6, 7],
  /** The four of the tail's truck. */
  tail: [0, 1, 2, 3],
  /** The four of the nose's truck. */
  nose: [4, 5, 6, 7],
} as const satisfies Record<string, readonly number[]>;
export type HoleChoice = keyof typeof HOLE_CHOICES;

/** Where the nose points in a picture. */
export type NoseTo = 'right' | 'left' | 'up' | 'down';

const TOWARDS: Readonly<Record<NoseTo, Pair>> = { right: [1, 0], left: [-1, 0], up: [0, -1], down: [0, 1] };

/**
 * Hole centres clicked in any order, put in the order of `truckHoles` as the pictured face is seen. Picture x to the
 * right, y down. The deck may lie up to about 40° from the stated way.
 */
export function orderHoles(clicked: readonly Pair[], noseTo: NoseTo): Outcome<Pair[]> {
  const n = clicked.length;
  if (n !== 4 && n !== 8) return traceTrouble.holesNotFourOrEight(n);
  // Each hole's nearest neighbour is the other of its pair, as far away for all but for perspective.
  const nearest = clicked.map((p) =>
    Math.min(...clicked.filter((q) => q !== p).map((q) => Math.hypot(p[0] - q[0], p[1] - q[1]))),
  );
  if (new Set(clicked).size < n || Math.min(...nearest) < Math.max(...nearest) / 2)
    return traceTrouble.holeClickedTwice();
  const cx = clicked.reduce((sum, p) => sum + p[0], 0) / n;
  const cy = clicked.reduce((sum, p) => sum + p[1], 0) / n;
  let [xx, xy, yy] = [0, 0, 0];
  for (const [x, y] of clicked) {
    xx += (x - cx) ** 2;
    xy += (x - cx) * (y - cy);
    yy += (y - cy) ** 2;
  }
  // Along the deck: the longer axis of the holes' spread (54 × 41 mm for one truck, far more for two).
  const turn = Math.atan2(2 * xy, xx - yy) / 2;
  const [tx, ty] = TOWARDS[noseTo];
  let [dx, dy] = [Math.cos(turn), Math.sin(turn)];
  if (dx * tx + dy * ty < 0) [dx, dy] = [-dx, -dy];
  if (dx * tx + dy * ty < Math.SQRT1_2)
    return traceTrouble.holesLieOtherwise(noseTo === 'up' || noseTo === 'down' ? 'up and down' : 'across');
  const along = ([x, y]: Pair) => (x - cx) * dx + (y - cy) * dy;
  const up = ([x, y]: Pair) => (x - cx) * dy - (y - cy) * dx;
  const sorted = [...clicked].sort((p, q) => along(p) - along(q));
  const out: Pair[] = [];
  for (let i = 0; i < n; i += 2) {
    const pair = [sorted[i]!, sorted[i + 1]!].sort((p, q) => up(p) - up(q));
    if (up(pair[0]!) >= 0 || up(pair[1]!) <= 0) return traceTrouble.holesWithoutPairs();
    out.push(...pair);
  }
  return done(out);
}
