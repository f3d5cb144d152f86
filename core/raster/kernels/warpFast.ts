import { type Mask, signedWords } from '../mask.ts';
import { countBelow, type SparseCoverage } from '../sparseCoverage.ts';
import type { WarpGrid } from '../warpGrid.ts';
import { CUBIC } from './cubicWeights.ts';
import { type Kernels, Scratch } from './load.ts';

/** Rows a tile starts with, and the source points it may take: more would leave the processor's second cache. */
const TILE_ROWS = 64;
const TILE_POINTS = 1 << 17;
/** Positions beyond this would not fit 32 bits in 1/2048 of a point. */
const FARTHEST = 1e6;

/** Coverage that can bring any part of itself to the kernels' memory. */
interface Source {
  readonly width: number;
  readonly height: number;
  readonly planeCount: number;
  /** Scratch it needs for a region of `size` texels, bytes. */
  readonly scratch: (size: number) => number;
  /** Writes texels, winners and reach of the region, rows of `pitch`. */
  readonly bring: (
    kernels: Kernels,
    region: Region,
    pitch: number,
    at: {
      readonly scratch: number;
      readonly texels: number;
      readonly winners: number;
      readonly reach: number;
    },
    cubic: boolean,
  ) => void;
}

interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The compiled twin of `warpRows`. Cuts the tile into parts whose source fits the cache. Returns false, having changed
 * nothing, when a node of the grid is no number or so far away that 32 bits do not hold it.
 */
export const warpRowsFast = (
  kernels: Kernels,
  planes: readonly Uint8Array[],
  srcWidth: number,
  srcHeight: number,
  ...where: readonly [...Where, cubic?: boolean]
): boolean => warpFast(kernels, planesSource(planes, srcWidth, srcHeight), false, ...where);

/** The same for coverage told shortly, bilinear only, into masks that are bare where the tile lies. */
export const warpSparseFast = (kernels: Kernels, coverage: SparseCoverage, ...where: Where): boolean =>
  warpFast(kernels, sparseSource(coverage), true, ...where);

type Where = readonly [
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  width: number,
  height: number,
];

function warpFast(
  kernels: Kernels,
  source: Source,
  bare: boolean,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  width: number,
  height: number,
  cubic = false,
): boolean {
  const { xy } = grid;
  for (let i = 0; i < grid.cols * grid.rows * 2; i++) if (!(Math.abs(xy[i]!) <= FARTHEST)) return false;
  const part = (x: number, y: number, w: number, h: number): void => {
    const region = regionOf(grid, source.width, source.height, x, y, w, h, cubic ? 1 : 0);
    if (region === null) return;
    if (region.width * region.height > TILE_POINTS && (w > 256 || h > 8)) {
      if (w > 16 * h) {
        const half = ((w >> 1) + 31) & ~31;
        part(x, y, half, h);
        part(x + half, y, w - half, h);
      } else {
        const half = h >> 1;
        part(x, y, w, half);
        part(x, y + half, w, h - half);
      }
    } else inkPart(kernels, source, bare, grid, out, outX, outY, { x, y, w, h }, region, cubic);
  };
  for (let y = 0; y < height; y += TILE_ROWS) part(0, y, width, Math.min(TILE_ROWS, height - y));
  return true;
}

/** The source points that a part of the tile may look at, with 1 + `more` on each side; null when all lie outside. */
function regionOf(
  { step, cols, xy }: WarpGrid,
  srcWidth: number,
  srcHeight: number,
  x: number,
  y: number,
  w: number,
  h: number,
  more: number,
): Region | null {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let r = Math.floor(y / step); r <= Math.floor((y + h - 1) / step) + 1; r++)
    for (let c = Math.floor(x / step); c <= Math.floor((x + w - 1) / step) + 1; c++) {
      const px = xy[2 * (r * cols + c)]!;
      const py = xy[2 * (r * cols + c) + 1]!;
      if (px < x0) x0 = px;
      if (px > x1) x1 = px;
      if (py < y0) y0 = py;
      if (py > y1) y1 = py;
    }
  if (x1 < -1 || y1 < -1 || x0 > srcWidth + 1 || y0 > srcHeight + 1) return null;
  const left = Math.max(-1, Math.floor(x0 - 0.5) - 1) - more;
  const top = Math.max(-1, Math.floor(y0 - 0.5) - 1) - more;
  const right = Math.min(srcWidth, Math.floor(x1 - 0.5) + 2) + more;
  const bottom = Math.min(srcHeight, Math.floor(y1 - 0.5) + 2) + more;
  return { x: left, y: top, width: right - left + 1, height: bottom - top + 1 };
}

function inkPart(
  kernels: Kernels,
  source: Source,
  bare: boolean,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  part: { readonly x: number; readonly y: number; readonly w: number; readonly h: number },
  region: Region,
  cubic: boolean,
): void {
  const pitch = (region.width + 16) & ~15;
  const size = pitch * region.height;
  const first = (outX + part.x) >>> 5;
  const words = (part.w + 31) >>> 5;
  const outSize = words * part.h * 4;
  const scratch = new Scratch();
  const nodesAt = scratch.take(grid.cols * grid.rows * 8);
  const { planeCount } = source;
  const sourceAt = scratch.take(source.scratch(size));
  const texelsAt = scratch.take(size * 8 * ((planeCount + 7) >> 3));
  const winnersAt = scratch.take(size);
  const reachAt = scratch.take(size);
  const outAt = scratch.take((planeCount - 1) * outSize);
  const rows = (planeCount - 1) * part.h;
  const spansAt = scratch.take(rows * 8);
  const weightsAt = cubic ? scratch.take(CUBIC.byteLength) : 0;
  scratch.reserve(kernels);
  if (cubic) new Int16Array(kernels.memory.buffer).set(CUBIC, weightsAt >> 1);
  new Float32Array(kernels.memory.buffer).set(grid.xy.subarray(0, grid.cols * grid.rows * 2), nodesAt >> 2);
  const at = { scratch: sourceAt, texels: texelsAt, winners: winnersAt, reach: reachAt };
  source.bring(kernels, region, pitch, at, cubic);

  new Uint8Array(kernels.memory.buffer).fill(0, outAt, outAt + (planeCount - 1) * outSize);
  kernels.warpTile(
    nodesAt,
    grid.cols,
    grid.step,
    part.x,
    part.y,
    part.w,
    part.h,
    planeCount,
    source.width,
    source.height,
    region.x,
    region.y,
    pitch,
    texelsAt,
    winnersAt,
    reachAt,
    outAt,
    outSize,
    words * 4,
    weightsAt,
  );
  kernels.inkedSpans(outAt, words * 4, rows, spansAt);
  // Most words are bare: they are not touched, for their memory need not be there yet.
  const memory = new Int32Array(kernels.memory.buffer);
  for (let row = 0, span = spansAt >> 2; row < rows; row++, span += 2) {
    const to = memory[span + 1]!;
    if (to === 0) continue;
    const mask = out[Math.floor(row / part.h)]!;
    const all = signedWords(mask);
    const here = (outAt >> 2) + row * words;
    const there = (outY + part.y + (row % part.h)) * mask.stride + first;
    const from = memory[span]!;
    if (bare) all.set(memory.subarray(here + from, here + to), there + from);
    else for (let i = from; i < to; i++) all[there + i] = all[there + i]! | memory[here + i]!;
  }
}

function planesSource(planes: readonly Uint8Array[], width: number, height: number): Source {
  return {
    width,
    height,
    planeCount: planes.length,
    scratch: (size) => planes.length * size,
    bring: (kernels, region, pitch, { scratch, texels, winners, reach }, cubic) => {
      const size = pitch * region.height;
      const bytes = new Uint8Array(kernels.memory.buffer);
      planes.forEach((plane, k) => {
        copyRegion(plane, width, height, region, bytes, scratch + k * size, pitch, k === 0 ? 255 : 0);
      });
      kernels.prepareSource(
        scratch,
        planes.length,
        pitch,
        region.height,
        texels,
        winners,
        reach,
        cubic ? 1 : 0,
      );
    },
  };
}

function sparseSource({ width, height, planeCount, winners, shared, shares }: SparseCoverage): Source {
  const texel = ((planeCount + 7) >> 3) << 3;
  return {
    width,
    height,
    planeCount,
    scratch: () => 0,
    bring: (kernels, region, pitch, at) => {
      const bytes = new Uint8Array(kernels.memory.buffer);
      copyRegion(winners, width, height, region, bytes, at.winners, pitch, 0);
      kernels.prepareWinners(at.winners, planeCount, pitch, region.height, at.texels, at.reach);
      const from = Math.max(0, region.x);
      const to = Math.min(width, region.x + region.width);
      const bottom = Math.min(height, region.y + region.height);
      for (let y = Math.max(0, region.y); y < bottom; y++) {
        const row = y * width;
        const start = at.texels + ((y - region.y) * pitch - region.x) * texel;
        for (let k = countBelow(shared, row + from); k < shared.length && shared[k]! < row + to; k++) {
          const to = start + (shared[k]! - row) * texel;
          for (let p = 0; p < planeCount; p++) bytes[to + p] = shares[k * planeCount + p]!;
        }
      }
    },
  };
}

/** Copies a region of a plane into rows of `pitch` bytes; beyond the plane, `outside`. */
function copyRegion(
  plane: Uint8Array,
  width: number,
  height: number,
  { x, y, width: regionWidth, height: rows }: Region,
  bytes: Uint8Array,
  at: number,
  pitch: number,
  outside: number,
): void {
  const from = Math.max(0, x);
  const to = Math.min(width, x + regionWidth);
  for (let row = 0; row < rows; row++) {
    const start = at + row * pitch;
    const source = y + row;
    if (source < 0 || source >= height || to <= from) {
      bytes.fill(outside, start, start + pitch);
      continue;
    }
    bytes.set(plane.subarray(source * width + from, source * width + to), start + from - x);
    if (from > x) bytes.fill(outside, start, start + from - x);
    bytes.fill(outside, start + to - x, start + pitch);
  }
}
