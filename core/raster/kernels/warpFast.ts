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
  /** Takes what it needs for a region of `size` texels beside those. */
  readonly room: (scratch: Scratch, size: number, region: Region, cubic: boolean) => Room;
  /** Writes texels, winners and alike of the region, rows of `pitch`. */
  readonly bring: (kernels: Kernels, region: Region, pitch: number, at: Room & Texels) => void;
}

/** Where a region's texels are in the kernels' memory, see assembly/warp.ts. */
interface Texels {
  readonly texels: number;
  readonly winners: number;
  readonly alike: number;
}

/** What else a source has there: `ones`, or 0, is read by `warpTile`. */
interface Room {
  readonly first: number;
  readonly second: number;
  readonly ones: number;
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

/** One tile to ink, and where its nodes, room for the box of some of them, and weights are in the kernels' memory. */
interface Tile {
  readonly kernels: Kernels;
  readonly source: Source;
  readonly grid: WarpGrid;
  readonly out: readonly Mask[];
  readonly outX: number;
  readonly outY: number;
  /** Whether the masks are bare where the tile lies. */
  readonly bare: boolean;
  readonly cubic: boolean;
  readonly scratch: Scratch;
  readonly nodes: number;
  readonly box: number;
  readonly weights: number;
}

/** A part of a tile, in its points. */
interface Part {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

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
  const xy = grid.xy.subarray(0, grid.cols * grid.rows * 2);
  const scratch = new Scratch();
  const nodes = scratch.take(xy.byteLength);
  const box = scratch.take(16);
  const weights = cubic ? scratch.take(CUBIC.byteLength) : 0;
  scratch.reserve(kernels);
  new Float32Array(kernels.memory.buffer).set(xy, nodes >> 2);
  if (kernels.nodesWithin(nodes, xy.length, FARTHEST) === 0) return false;
  if (cubic) new Int16Array(kernels.memory.buffer).set(CUBIC, weights >> 1);
  const tile: Tile = { kernels, source, grid, out, outX, outY, bare, cubic, scratch, nodes, box, weights };
  for (let y = 0; y < height; y += TILE_ROWS)
    inkParts(tile, { x: 0, y, w: width, h: Math.min(TILE_ROWS, height - y) });
  return true;
}

/** Inks a part, in as many parts as let its source fit the cache. */
function inkParts(tile: Tile, part: Part): void {
  const { x, y, w, h } = part;
  const region = regionOf(tile, part);
  if (region === null) return;
  if (region.width * region.height <= TILE_POINTS || (w <= 256 && h <= 8)) {
    inkPart(tile, part, region);
  } else if (w > 16 * h) {
    const half = ((w >> 1) + 31) & ~31;
    inkParts(tile, { x, y, w: half, h });
    inkParts(tile, { x: x + half, y, w: w - half, h });
  } else {
    const half = h >> 1;
    inkParts(tile, { x, y, w, h: half });
    inkParts(tile, { x, y: y + half, w, h: h - half });
  }
}

/** The source points that a part of the tile may look at, with one or, bicubic, two on each side; null when all lie outside. */
function regionOf({ kernels, grid, source, cubic, nodes, box }: Tile, { x, y, w, h }: Part): Region | null {
  const { step, cols } = grid;
  const more = cubic ? 1 : 0;
  const node = (place: number) => Math.floor(place / step);
  kernels.nodesBox(nodes, cols, node(x), node(x + w - 1) + 1, node(y), node(y + h - 1) + 1, box);
  const found = new Float32Array(kernels.memory.buffer, box, 4);
  const [x0, y0, x1, y1] = [found[0]!, found[1]!, found[2]!, found[3]!];
  if (x1 < -1 || y1 < -1 || x0 > source.width + 1 || y0 > source.height + 1) return null;
  const left = Math.max(-1, Math.floor(x0 - 0.5) - 1) - more;
  const top = Math.max(-1, Math.floor(y0 - 0.5) - 1) - more;
  const right = Math.min(source.width, Math.floor(x1 - 0.5) + 2) + more;
  const bottom = Math.min(source.height, Math.floor(y1 - 0.5) + 2) + more;
  return { x: left, y: top, width: right - left + 1, height: bottom - top + 1 };
}

function inkPart(tile: Tile, part: Part, region: Region): void {
  const { kernels, source, grid, cubic } = tile;
  const { planeCount } = source;
  const pitch = (region.width + 16) & ~15;
  const size = pitch * region.height;
  const words = (part.w + 31) >>> 5;
  const outSize = words * part.h * 4;
  const rows = (planeCount - 1) * part.h;
  const scratch = tile.scratch.fork();
  const room = source.room(scratch, size, region, cubic);
  const texels = scratch.take(size * 8 * ((planeCount + 7) >> 3));
  const winners = scratch.take(size + 32);
  const alike = scratch.take((size >> 3) + 16);
  const outAt = scratch.take((planeCount - 1) * outSize);
  const spansAt = scratch.take(rows * 8);
  scratch.reserve(kernels);
  source.bring(kernels, region, pitch, { ...room, texels, winners, alike });
  const memory = new Int32Array(kernels.memory.buffer);
  memory.fill(0, outAt >> 2, (outAt + (planeCount - 1) * outSize) >> 2);
  kernels.warpTile(
    tile.nodes,
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
    texels,
    winners,
    alike,
    room.ones,
    outAt,
    outSize,
    words * 4,
    tile.weights,
  );
  kernels.inkedSpans(outAt, words * 4, rows, spansAt);
  const lay = tile.bare ? setSpans : addSpans;
  for (let k = 0; k < planeCount - 1; k++) {
    const mask = tile.out[k]!;
    const there = (tile.outY + part.y) * mask.stride + ((tile.outX + part.x) >>> 5);
    const row = k * part.h;
    lay(
      memory,
      (spansAt >> 2) + 2 * row,
      part.h,
      (outAt >> 2) + row * words,
      words,
      signedWords(mask),
      there,
      mask.stride,
    );
  }
}

/**
 * Copies of each of `rows` rows the words of its span, two words from `spans` on. Most words are bare: they are not touched, for their memory need
 * not be there yet.
 */
function setSpans(
  memory: Int32Array,
  spans: number,
  rows: number,
  here: number,
  pitch: number,
  to: Int32Array,
  there: number,
  stride: number,
): void {
  for (let y = 0; y < rows; y++) {
    const first = memory[spans + 2 * y]!;
    const end = memory[spans + 2 * y + 1]!;
    const from = here + y * pitch;
    const target = there + y * stride;
    for (let i = first; i < end; i++) to[target + i] = memory[from + i]!;
  }
}

/** The same, into masks that have ink already. */
function addSpans(
  memory: Int32Array,
  spans: number,
  rows: number,
  here: number,
  pitch: number,
  to: Int32Array,
  there: number,
  stride: number,
): void {
  for (let y = 0; y < rows; y++) {
    const end = memory[spans + 2 * y + 1]!;
    for (let i = memory[spans + 2 * y]!; i < end; i++)
      to[there + y * stride + i] = to[there + y * stride + i]! | memory[here + y * pitch + i]!;
  }
}

function planesSource(planes: readonly Uint8Array[], width: number, height: number): Source {
  return {
    width,
    height,
    planeCount: planes.length,
    room: (scratch, size, _, cubic) => ({
      first: scratch.take(planes.length * size),
      second: cubic ? scratch.take(size >> 3) : 0,
      ones: 0,
    }),
    bring: (kernels, region, pitch, { first, second, texels, winners, alike }) => {
      const size = pitch * region.height;
      const bytes = new Uint8Array(kernels.memory.buffer);
      planes.forEach((plane, k) => {
        copyRegion(plane, width, height, region, bytes, first + k * size, pitch, k === 0 ? 255 : 0);
      });
      kernels.prepareSource(first, planes.length, pitch, region.height, texels, winners, alike, second);
    },
  };
}

function sparseSource({ width, height, planeCount, winners, shared, shares }: SparseCoverage): Source {
  /** Which of the shared points lie in a region's rows. */
  const among = ({ y, height: rows }: Region): [number, number] => [
    countBelow(shared, Math.max(0, y) * width),
    countBelow(shared, Math.min(height, y + rows) * width),
  ];
  return {
    width,
    height,
    planeCount,
    room: (scratch, _, region) => {
      const [from, to] = among(region);
      return {
        first: scratch.take(4 * (to - from)),
        second: scratch.take(planeCount * (to - from)),
        ones: scratch.take(planeCount * 8 * ((planeCount + 7) >> 3)),
      };
    },
    bring: (kernels, region, pitch, at) => {
      const bytes = new Uint8Array(kernels.memory.buffer);
      copyRegion(winners, width, height, region, bytes, at.winners, pitch, 0);
      const [from, to] = among(region);
      new Int32Array(kernels.memory.buffer).set(shared.subarray(from, to), at.first >> 2);
      bytes.set(shares.subarray(from * planeCount, to * planeCount), at.second);
      kernels.spreadShares(
        at.winners,
        planeCount,
        pitch,
        region.height,
        at.alike,
        at.first,
        at.second,
        to - from,
        width,
        region.x,
        region.y,
        region.width,
        at.texels,
        at.ones,
      );
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
