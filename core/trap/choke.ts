import {
  blankMask,
  borrowMask,
  crop,
  discSquares,
  giveBack,
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

/** Points a side of the pieces that thin ink is looked at in: small, as most of a film is thick or bare. */
const TILE_WIDTH = 128;
const TILE_HEIGHT = 64;
/** Pieces laid side by side and below each other to be looked at together: long rows keep the kernels busy. */
const ACROSS = 16;
const DOWN = 4;

/**
 * The mask drawn in by `chokePx` from its edges, without eating thin lines. With d(p) the distance, in points, from p to
 * the nearest bare point and τ(p) the radius of the largest digital disc inside the ink that covers p, p stays when
 *   d(p) > min(c, max(0, τ(p) − m / 2)),
 * so that a line at least m = `narrowestPx` wide keeps about m, and a thinner one all it has. τ is looked for among the
 * discs up to the first that is at least c + m/2: beyond it the choke is c whatever τ is.
 *
 * Once `abort` says so it stops early and the result is worthless. The result is borrowed.
 * Whoever chokes band by band hands the same `spare` over each time.
 */
export function chokeMask(
  mask: Mask,
  chokePx: Px,
  narrowestPx: Px,
  abort?: Abort,
  spare: ChokeSpare = {},
): Mask {
  const kept = shrink(mask, chokePx, borrowMask(mask.width, mask.height));
  if (chokePx < 1) return kept;
  const radii = ladder(chokePx + narrowestPx / 2);
  const open = inQuestion(mask, kept, radii, narrowestPx / 2, chokePx);
  const tiles = tilesOf(open);
  giveBack(open);
  if (tiles.length === 0) return kept;
  const margin = 2 * Math.ceil(radii.at(-1)!) + 1;
  const [width, height] = [TILE_WIDTH + 2 * margin, TILE_HEIGHT + 2 * margin];
  const across = Math.min(ACROSS, tiles.length);
  const down = Math.min(DOWN, Math.ceil(tiles.length / across));
  const size = { width: across * width, height: down * height };
  const before = spare.rungs;
  const rungs = before?.fits(size) ? before : new ThinRungs(size.width, size.height, radii, narrowestPx / 2);
  spare.rungs = rungs;
  const { sheet } = rungs;
  for (let first = 0; first < tiles.length; first += across * down) {
    if (abort?.aborted) return kept;
    const some = tiles.slice(first, first + across * down);
    const place = (i: number) => ({ left: (i % across) * width, top: Math.floor(i / across) * height });
    // A margin of twice the largest disc keeps what lies in one piece from reaching the middle of the next.
    sheet.data.fill(0);
    for (const [i, { x, y }] of some.entries())
      paste(sheet, crop(mask, x - margin, y - margin, width, height), place(i).left, place(i).top);
    const stay = rungs.stay(sheet);
    for (const [i, tile] of some.entries()) {
      const { left, top } = place(i);
      const answer = crop(stay, left + margin, top + margin, TILE_WIDTH, TILE_HEIGHT);
      paste(kept, intersect(answer, tile.open, answer), tile.x, tile.y);
    }
  }
  return kept;
}

/**
 * The points that neither the plain choke keeps nor a look at a few radii takes: p goes when d(p) ≤ b and a disc of at least
 * b + m/2 covers it, which is most of every edge. What this leaves is thin, or the tip of a corner.
 */
function inQuestion(mask: Mask, kept: Mask, radii: readonly Px[], half: Px, choke: Px): Mask {
  const open = opening(mask, radii.at(-1)!, borrowMask(mask.width, mask.height));
  subtract(mask, open, open);
  subtract(open, kept, open);
  const wide = borrowMask(mask.width, mask.height);
  const deep = borrowMask(mask.width, mask.height);
  for (const share of [1 / 8, 1 / 4, 1 / 2]) {
    const bound = Math.max(1, choke * share);
    const radius = radii.find((rung) => rung >= bound + half - 1e-9);
    if (radius === undefined) continue;
    opening(mask, radius, wide);
    subtract(wide, shrink(mask, bound, deep), wide);
    subtract(open, wide, open);
  }
  giveBack(wide, deep);
  return open;
}

interface Tile {
  readonly x: Px;
  readonly y: Px;
  readonly open: Mask;
}

/** The pieces of the mask that have ink. */
function tilesOf(mask: Mask): Tile[] {
  const tiles: Tile[] = [];
  for (let y = 0; y < mask.height; y += TILE_HEIGHT)
    for (let x = 0; x < mask.width; x += TILE_WIDTH) {
      if (bareWords(mask, x, y)) continue;
      tiles.push({ x, y, open: crop(mask, x, y, TILE_WIDTH, TILE_HEIGHT) });
    }
  return tiles;
}

function bareWords(mask: Mask, x: Px, y: Px): boolean {
  const last = Math.min(x + TILE_WIDTH - 1, mask.width - 1) >>> 5;
  for (let row = y; row < Math.min(mask.height, y + TILE_HEIGHT); row++)
    for (let w = x >>> 5; w <= last; w++) if (mask.data[row * mask.stride + w] !== 0) return false;
  return true;
}

/** Points beyond which nothing changes what `chokeMask` does with a point: a disc reaches it, and is reached by another. */
export const chokeReach = (chokePx: Px, narrowestPx: Px): Px =>
  2 * Math.ceil(ladder(chokePx + narrowestPx / 2).at(-1) ?? 0) + 1;

/** The radii at which digital discs change, up to the first that is at least `reach`. */
function ladder(reach: Px): Px[] {
  const radii = discSquares(reach + 1).map(Math.sqrt);
  const end = radii.findIndex((radius) => radius >= reach - 1e-9);
  return radii.slice(0, end + 1);
}

/** What one choke leaves for the next of the same widths: masks for the discs of every size take long to come by. */
export interface ChokeSpare {
  rungs?: ThinRungs;
}

/** The rule for one tile, rung by rung of τ from the thickest down; masks are made once and used for every tile. */
class ThinRungs {
  /** To lay the tile in. */
  readonly sheet: Mask;
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
    this.sheet = mask();
    this.shrunk = radii.map(mask);
    this.open = mask();
    this.covered = mask();
    this.kept = mask();
    this.limits = radii.map((radius) => radii.findLastIndex((rung) => rung <= Math.max(0, radius - half)));
    for (const [k, radius] of radii.entries()) if (radius - half <= 0) this.limits[k] = -1;
  }

  fits({ width, height }: { readonly width: Px; readonly height: Px }): boolean {
    return this.sheet.width === width && this.sheet.height === height;
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
