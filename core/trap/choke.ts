import {
  blankMask,
  crop,
  discSquares,
  grow,
  intersect,
  isBlank,
  type Mask,
  opening,
  paste,
  shrink,
  subtract,
} from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';

/** Points a side of the pieces that thin ink is looked at in: whole words wide, small enough for a processor's cache. */
const TILE_WIDTH = 1024;
const TILE_HEIGHT = 384;

/**
 * The mask drawn in by `chokePx` from its edges, without eating thin lines. With d(p) the distance, in points, from p to
 * the nearest bare point and τ(p) the radius of the largest digital disc inside the ink that covers p, p stays when
 *   d(p) > min(c, max(0, τ(p) − m / 2)),
 * so that a line at least m = `narrowestPx` wide keeps about m, and a thinner one all it has. τ is looked for among the
 * discs up to the first that is at least c + m/2: beyond it the choke is c whatever τ is.
 *
 * Once `abort` says so it stops early and the result is worthless.
 */
export function chokeMask(mask: Mask, chokePx: Px, narrowestPx: Px, abort?: Abort): Mask {
  const kept = shrink(mask, chokePx);
  if (chokePx < 1) return kept;
  const radii = ladder(chokePx + narrowestPx / 2);
  // Only thin ink that the plain choke takes is in question.
  const thin = opening(mask, radii.at(-1)!);
  subtract(mask, thin, thin);
  subtract(thin, kept, thin);
  const margin = 2 * Math.ceil(radii.at(-1)!) + 1;
  const width = Math.min(TILE_WIDTH, mask.width);
  const height = Math.min(TILE_HEIGHT, mask.height);
  const rungs = new ThinRungs(width + 2 * margin, height + 2 * margin, radii, narrowestPx / 2);
  for (let y = 0; y < mask.height; y += height)
    for (let x = 0; x < mask.width; x += width) {
      if (abort?.aborted) return kept;
      const open = crop(thin, x, y, width, height);
      if (isBlank(open)) continue;
      const stay = rungs.stay(crop(mask, x - margin, y - margin, width + 2 * margin, height + 2 * margin));
      paste(kept, intersect(crop(stay, margin, margin, width, height), open, open), x, y);
    }
  return kept;
}

/** The radii at which digital discs change, up to the first that is at least `reach`. */
function ladder(reach: Px): Px[] {
  const radii = discSquares(reach + 1).map(Math.sqrt);
  const end = radii.findIndex((radius) => radius >= reach - 1e-9);
  return radii.slice(0, end + 1);
}

/** The rule for one tile, rung by rung of τ from the thickest down; masks are made once and used for every tile. */
class ThinRungs {
  private readonly shrunk: Mask[];
  private readonly open: Mask;
  private readonly covered: Mask;
  private readonly kept: Mask;
  /** By rung of τ: the rung d must be above; -1 where all ink that thin stays. */
  private readonly limits: number[];

  constructor(
    width: Px,
    height: Px,
    private readonly radii: readonly Px[],
    half: Px,
  ) {
    const mask = () => blankMask(width, height);
    this.shrunk = radii.map(mask);
    this.open = mask();
    this.covered = mask();
    this.kept = mask();
    this.limits = radii.map((radius) => radii.findLastIndex((rung) => rung <= Math.max(0, radius - half)));
    for (const [k, radius] of radii.entries()) if (radius - half <= 0) this.limits[k] = -1;
  }

  /** Of the tile's points whose τ is below the last rung those that stay; others may be wrong. */
  stay(tile: Mask): Mask {
    const { radii, shrunk, open, covered, kept, limits } = this;
    // shrunk[k]: points with d > radii[k]; none left means none on any higher rung.
    shrunk[0] = tile;
    let top = 0;
    while (top + 1 < radii.length && !isBlank(shrink(tile, radii[top + 1]!, shrunk[top + 1]!))) top++;
    covered.data.fill(0);
    kept.data.fill(0);
    for (let k = top; k >= 0 && limits[k]! >= 0; k--) {
      grow(shrunk[k]!, radii[k]!, open);
      keepRung(open.data, covered.data, shrunk[limits[k]!]!.data, kept.data);
    }
    keepRest(tile.data, covered.data, kept.data);
    return kept;
  }
}

/** τ is this rung's where its discs reach and no larger one did; there the points of `within` stay. */
function keepRung(open: Uint32Array, covered: Uint32Array, within: Uint32Array, kept: Uint32Array): void {
  for (let i = 0; i < open.length; i++) {
    const reached = open[i]!;
    if (reached === 0) continue;
    const before = covered[i]!;
    kept[i] = kept[i]! | (reached & ~before & within[i]!);
    covered[i] = before | reached;
  }
}

/** Ink that no rung reached is thinner than the mesh holds and stays whole. */
function keepRest(ink: Uint32Array, covered: Uint32Array, kept: Uint32Array): void {
  for (let i = 0; i < ink.length; i++) kept[i] = kept[i]! | (ink[i]! & ~covered[i]!);
}
