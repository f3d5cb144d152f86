import { type Kernels, Scratch } from './load.ts';

/** Bytes of art a band aims at, without what it needs above and below. */
const BAND = 1 << 19;
/** Bytes of the kernel's own sums, candidates and parts: see `begin` in assembly/softPoints.ts. */
const STATE = 64 * 52 + 512;

/** Places about a point, the nearest first. */
export interface SoftRing {
  /** dx, dy one after the other. */
  readonly offsets: Int32Array;
  readonly squares: Int32Array;
  readonly reach: number;
}

/** What soft points are solved with; all plain tables. */
export interface SoftPoints {
  readonly width: number;
  readonly height: number;
  /** Of every point its word, its code and its core. */
  readonly words: Int32Array;
  readonly codes: Uint8Array;
  readonly cores: Uint8Array;
  /** By label: four numbers of its colour, and its plane. */
  readonly colours: Float64Array;
  readonly planes: Uint8Array;
  /** By byte; and by sure or not and alpha, 256 each. */
  readonly curve: Float64Array;
  readonly weights: Float64Array;
  readonly near: SoftRing;
  readonly wide: SoftRing;
  /** good, ownPrice, tightAlone, looseAlone, chroma, unexplained. */
  readonly exactness: Float64Array;
}

/** The kernel's tables for one picture, and its bands brought one after the other. */
class Bands {
  private readonly scratch = new Scratch();
  private readonly rows: number;
  private readonly table: number;
  private readonly parts: Readonly<Record<'words' | 'codes' | 'cores', number>>;

  constructor(
    private readonly kernels: Kernels,
    private readonly of: SoftPoints,
  ) {
    const { scratch } = this;
    this.rows = Math.max(1, Math.min(of.height, Math.floor(BAND / (4 * of.width))));
    const points = of.width * (this.rows + 2 * of.wide.reach);
    const ring = ({ offsets, squares }: SoftRing): Int32Array =>
      Int32Array.from({ length: 3 * squares.length }, (_, i) =>
        i % 3 === 2 ? squares[(i - 2) / 3]! : offsets[2 * Math.floor(i / 3) + (i % 3)]!,
      );
    const [near, wide] = [ring(of.near), ring(of.wide)];
    this.table = scratch.take(18 * 4);
    const [colours, planes] = [scratch.take(of.colours.byteLength), scratch.take(of.planes.length)];
    const [curve, weights] = [scratch.take(of.curve.byteLength), scratch.take(of.weights.byteLength)];
    const [nearAt, wideAt] = [scratch.take(near.byteLength), scratch.take(wide.byteLength)];
    const exactness = scratch.take(of.exactness.byteLength);
    const state = scratch.take(STATE);
    this.parts = {
      words: scratch.take(4 * points),
      codes: scratch.take(points),
      cores: scratch.take(points),
    };
    scratch.reserve(kernels);
    const memory = new Int32Array(kernels.memory.buffer);
    const doubles = new Float64Array(kernels.memory.buffer);
    const bytes = new Uint8Array(kernels.memory.buffer);
    doubles.set(of.colours, colours >> 3);
    bytes.set(of.planes, planes);
    doubles.set(of.curve, curve >> 3);
    doubles.set(of.weights, weights >> 3);
    memory.set(near, nearAt >> 2);
    memory.set(wide, wideAt >> 2);
    doubles.set(of.exactness, exactness >> 3);
    memory.fill(0, state >> 2, (state + STATE) >> 2);
    memory.set(
      [
        this.parts.words,
        this.parts.codes,
        this.parts.cores,
        of.width,
        0,
        colours,
        planes,
        of.planes.length,
        curve,
        weights,
        nearAt,
        near.length / 3,
        of.near.reach,
        wideAt,
        wide.length / 3,
        of.wide.reach,
        exactness,
        state,
      ],
      this.table >> 2,
    );
  }

  /**
   * Calls for each band that holds some of the ascending `places` with where the kernel's table is, those places counted from the
   * band's first point at `at`, the number of that point, and which of the places they are. `room` bytes a place are free from `out` on.
   */
  each(
    places: Int32Array,
    room: number,
    visit: (table: number, at: number, count: number, base: number, from: number, out: number) => void,
  ): void {
    const { of, parts } = this;
    const { width, height } = of;
    for (let from = 0; from < places.length; ) {
      const y = Math.floor(places[from]! / width);
      const bottom = Math.min(height, y + this.rows);
      let to = from;
      while (to < places.length && places[to]! < bottom * width) to++;
      const scratch = this.scratch.fork();
      const at = scratch.take(4 * (to - from));
      const out = scratch.take(room * (to - from) + 64);
      scratch.reserve(this.kernels);
      const memory = new Int32Array(this.kernels.memory.buffer);
      const bytes = new Uint8Array(this.kernels.memory.buffer);
      const first = Math.max(0, y - of.wide.reach);
      const last = Math.min(height, bottom + of.wide.reach);
      const [base, end] = [first * width, last * width];
      memory.set(of.words.subarray(base, end), parts.words >> 2);
      bytes.set(of.codes.subarray(base, end), parts.codes);
      bytes.set(of.cores.subarray(base, end), parts.cores);
      memory[(this.table >> 2) + 4] = last - first;
      for (let k = from; k < to; k++) memory[(at >> 2) + k - from] = places[k]! - base;
      visit(this.table, at, to - from, base, from, out);
      from = to;
    }
  }
}

/**
 * A byte for each of the ascending `places`: with `explain` 1 where the other labels about a likely core explain its point, else the core that
 * the point gets as a thin line, 0 for none.
 */
export function thinCoresFast(
  kernels: Kernels,
  of: SoftPoints,
  places: Int32Array,
  explain: boolean,
): Uint8Array {
  const answer = new Uint8Array(places.length);
  new Bands(kernels, of).each(places, 1, (table, at, count, _, from, out) => {
    kernels.thinCores(table, at, count, explain ? 1 : 0, out);
    answer.set(new Uint8Array(kernels.memory.buffer, out, count), from);
  });
  return answer;
}

/**
 * Solves the ascending `places` that have no sure core: into `winners` the plane that has most of each, into `shared` and `shares` (a byte a
 * plane) those that several have. Returns how many these are.
 */
export function softSharesFast(
  kernels: Kernels,
  of: SoftPoints,
  places: Int32Array,
  planeCount: number,
  winners: Uint8Array,
  shared: Int32Array,
  shares: Uint8Array,
): number {
  let total = 0;
  new Bands(kernels, of).each(places, planeCount + 5, (table, at, count, base, from, out) => {
    const sharedAt = out + ((count + 15) & ~15);
    const sharesAt = sharedAt + 4 * count;
    const n = kernels.softShares(table, at, count, planeCount, out, sharedAt, sharesAt);
    const bytes = new Uint8Array(kernels.memory.buffer);
    const memory = new Int32Array(kernels.memory.buffer);
    for (let k = 0; k < count; k++) {
      const most = bytes[out + k]!;
      if (most !== 255) winners[places[from + k]!] = most;
    }
    for (let k = 0; k < n; k++) shared[total + k] = memory[(sharedAt >> 2) + k]! + base;
    shares.set(bytes.subarray(sharesAt, sharesAt + n * planeCount), total * planeCount);
    total += n;
  });
  return total;
}
