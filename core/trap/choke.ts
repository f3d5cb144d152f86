import { borrowMask, type DrawIn, discSquares, drawInRows, type Mask, NO_DISC } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';

/** Rows between two looks at whether to stop. */
const BAND_ROWS = 512;
/** Share of the choke for which it is first looked where wide ink goes: most of every edge, found many points at a time. */
const LOOK = 1 / 2;

/**
 * The ink of all `masks` together drawn in by `chokePx` from its edges, without eating thin lines: rows `from` to before `to`, into those of
 * `out`. With d(p) the distance, in points, from p to the nearest bare point and τ(p) the radius of the largest digital disc inside the ink that
 * covers p, p stays when
 *   d(p) > min(c, max(0, τ(p) − m / 2)),
 * so that a line at least m = `narrowestPx` wide keeps about m, and a thinner one all it has. τ is looked for among the
 * discs up to the first that is at least c + m/2: beyond it the choke is c whatever τ is.
 *
 * Once `abort` says so it stops early and the result is worthless.
 */
export function chokeInk(
  masks: readonly Mask[],
  chokePx: Px,
  narrowestPx: Px,
  from: Px,
  to: Px,
  out: Mask,
  abort?: Abort,
): void {
  const how = chokeRule(chokePx, narrowestPx);
  for (let first = from; first < to && !abort?.aborted; first += BAND_ROWS)
    drawInRows(masks, first, Math.min(to, first + BAND_ROWS), how, out);
}

/** One mask choked by the rule of `chokeInk`; borrowed. */
export function chokeMask(mask: Mask, chokePx: Px, narrowestPx: Px, abort?: Abort): Mask {
  const out = borrowMask(mask.width, mask.height);
  chokeInk([mask], chokePx, narrowestPx, 0, mask.height, out, abort);
  return out;
}

/** The rule by squared distances: which disc that covers a point takes it. */
function chokeRule(chokePx: Px, narrowestPx: Px): DrawIn {
  if (chokePx < 1) return { chokePx, largest: 0, least: new Uint16Array(2).fill(NO_DISC), look: null };
  const half = narrowestPx / 2;
  const squares = ladder(chokePx + half);
  const radii = squares.map(Math.sqrt);
  // By disc: the longest d that it takes; -1 where it takes none.
  const takes = radii.map((radius) =>
    radius - half <= 0 ? -1 : squares[radii.findLastIndex((rung) => rung <= radius - half)]!,
  );
  const largest = squares.at(-1)!;
  const least = Uint16Array.from({ length: largest + 2 }, (_, n) => {
    const disc = takes.findIndex((longest) => n > 0 && n <= longest);
    return disc < 0 ? NO_DISC : squares[disc]!;
  });
  const bound = Math.max(1, chokePx * LOOK);
  const radius = radii.find((rung) => rung >= bound + half - 1e-9);
  return { chokePx, largest, least, look: radius === undefined ? null : { radius, bound } };
}

/** The squared radii at which digital discs change, up to the first that is at least `reach`. */
function ladder(reach: Px): number[] {
  const squares = discSquares(reach + 1);
  const end = squares.findIndex((square) => Math.sqrt(square) >= reach - 1e-9);
  return squares.slice(0, end + 1);
}
