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
  union,
} from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';

/** Points a side of the pieces that thin ink is looked at in; whole words wide. */
const TILE_WIDTH = 1024;
const TILE_HEIGHT = 256;

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
  const thin = opening(mask, radii.at(-1)!);
  subtract(mask, thin, thin);
  const margin = 2 * Math.ceil(radii.at(-1)!) + 1;
  for (let y = 0; y < mask.height; y += TILE_HEIGHT)
    for (let x = 0; x < mask.width; x += TILE_WIDTH) {
      if (abort?.aborted) return kept;
      const width = Math.min(TILE_WIDTH, mask.width - x);
      const height = Math.min(TILE_HEIGHT, mask.height - y);
      if (bareWords(thin, x, y, width, height)) continue;
      const part = crop(mask, x - margin, y - margin, width + 2 * margin, height + 2 * margin);
      const keep = thinKept(part, radii, narrowestPx / 2);
      const tile = crop(keep, margin, margin, width, height);
      paste(kept, intersect(tile, crop(thin, x, y, width, height), tile), x, y);
    }
  return kept;
}

/** The radii at which digital discs change, up to the first that is at least `reach`. */
function ladder(reach: Px): Px[] {
  const radii = discSquares(reach + 1).map(Math.sqrt);
  const end = radii.findIndex((radius) => radius >= reach - 1e-9);
  return radii.slice(0, end + 1);
}

function bareWords(mask: Mask, x: Px, y: Px, width: Px, height: Px): boolean {
  const first = x >>> 5;
  const last = (x + width - 1) >>> 5;
  for (let row = y; row < y + height; row++)
    for (let w = first; w <= last; w++) if (mask.data[row * mask.stride + w] !== 0) return false;
  return true;
}

/** Of the points whose τ is below the ladder's last rung, those that stay; others may be wrong. */
function thinKept(mask: Mask, radii: readonly Px[], half: Px): Mask {
  // shrunk[k]: points with d > radii[k]; none left means none on any higher rung.
  const shrunk: Mask[] = [mask];
  for (let k = 1; k < radii.length; k++) {
    const next = shrink(mask, radii[k]!);
    if (isBlank(next)) break;
    shrunk.push(next);
  }
  const open = blankMask(mask.width, mask.height);
  const covered = blankMask(mask.width, mask.height);
  const fresh = blankMask(mask.width, mask.height);
  const kept = blankMask(mask.width, mask.height);
  for (let k = shrunk.length - 1; k >= 0; k--) {
    grow(shrunk[k]!, radii[k]!, open);
    // τ is radii[k] where this rung's discs reach and no larger one did.
    subtract(open, covered, fresh);
    union(covered, open, covered);
    const limit = radii[k]! - half;
    if (limit > 0) {
      let rung = k;
      while (radii[rung]! > limit) rung--;
      intersect(fresh, shrunk[rung]!, fresh);
    }
    union(kept, fresh, kept);
  }
  return kept;
}
