import { countBelow } from '../sparseCoverage.ts';
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
    this.table = scratch.take(19 * 4);
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
        0,
      ],
      this.table >> 2,
    );
  }

  /**
   * Calls for each band that holds some of the ascending `places`, or for `all`: with where the kernel's table and those places are, and
   * with `room` bytes from `out` on.
   */
  each(
    places: Int32Array,
    all: boolean,
    room: (band: Band) => number,
    visit: (band: Band, table: number, at: number, out: number) => void,
  ): void {
    const { of, parts } = this;
    const { width, height } = of;
    for (let from = 0, y = 0; all ? y < height : from < places.length; ) {
      if (!all) y = Math.floor(places[from]! / width);
      const bottom = Math.min(height, y + this.rows);
      const to = countBelow(places, bottom * width);
      const first = Math.max(0, y - of.wide.reach);
      const last = Math.min(height, bottom + of.wide.reach);
      const [base, end] = [first * width, last * width];
      const band = {
        from,
        count: to - from,
        y,
        rows: bottom - y,
        above: y - first,
      };
      const scratch = this.scratch.fork();
      const at = scratch.take(4 * band.count);
      const out = scratch.take(room(band) + 64);
      scratch.reserve(this.kernels);
      const memory = new Int32Array(this.kernels.memory.buffer);
      const bytes = new Uint8Array(this.kernels.memory.buffer);
      memory.set(of.words.subarray(base, end), parts.words >> 2);
      bytes.set(of.codes.subarray(base, end), parts.codes);
      bytes.set(of.cores.subarray(base, end), parts.cores);
      memory[(this.table >> 2) + 4] = last - first;
      memory[(this.table >> 2) + 18] = base;
      memory.set(places.subarray(from, to), at >> 2);
      visit(band, this.table, at, out);
      from = to;
      y = bottom;
    }
  }
}

/** Rows of a picture from `y` on, of which as many more as `above` are brought, and which of the places lie there. */
interface Band {
  readonly from: number;
  readonly count: number;
  readonly y: number;
  readonly rows: number;
  readonly above: number;
}

/** Cores that points get as thin lines: their places, and a byte each. */
export interface ThinCores {
  readonly places: Int32Array;
  readonly cores: Uint8Array;
}

/** Which of the ascending `places` get a core as thin lines. */
export function thinCoresFast(kernels: Kernels, of: SoftPoints, places: Int32Array): ThinCores {
  const found = new Found();
  const cores: Uint8Array[] = [];
  const room = ({ count }: Band) => 5 * count;
  new Bands(kernels, of).each(places, false, room, ({ count }, table, at, out) => {
    const n = kernels.thinCores(table, at, count, out, out + 4 * count);
    found.add(kernels, out, n);
    cores.push(new Uint8Array(kernels.memory.buffer).slice(out + 4 * count, out + 4 * count + n));
  });
  const all = new Uint8Array(found.count);
  let at = 0;
  for (const some of cores) {
    all.set(some, at);
    at += some.length;
  }
  return { places: found.all(), cores: all };
}

/** Which of the ascending `places`, likely cores, the other labels about them explain. */
export function explainedCoresFast(kernels: Kernels, of: SoftPoints, places: Int32Array): Int32Array {
  const found = new Found();
  const room = ({ count }: Band) => 4 * count;
  new Bands(kernels, of).each(places, false, room, ({ count }, table, at, out) => {
    found.add(kernels, out, kernels.explainedCores(table, at, count, out));
  });
  return found.all();
}

/** Places found band by band. */
class Found {
  private readonly parts: Int32Array[] = [];
  count = 0;

  /** Keeps `n` words of the kernels' memory from `at` on. */
  add(kernels: Kernels, at: number, n: number): void {
    this.parts.push(new Int32Array(kernels.memory.buffer).slice(at >> 2, (at >> 2) + n));
    this.count += n;
  }

  all(): Int32Array {
    const places = new Int32Array(this.count);
    let at = 0;
    for (const part of this.parts) {
      places.set(part, at);
      at += part.length;
    }
    return places;
  }
}

/**
 * Solves the ascending `places` that have no sure core: into `winners`, of every point, the plane of its core or else the plane that has
 * most of it, into `shared` and `shares` (a byte a plane) those that several have. Returns how many these are.
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
  const { width } = of;
  const sizeOf = (rows: number) => (rows * width + 15) & ~15;
  const room = ({ rows, count }: Band) => sizeOf(rows) + (planeCount + 4) * count;
  new Bands(kernels, of).each(places, true, room, ({ count, y, rows, above }, table, at, out) => {
    const sharedAt = out + sizeOf(rows);
    const sharesAt = sharedAt + 4 * count;
    const n = kernels.softShares(table, at, count, planeCount, above, rows, out, sharedAt, sharesAt);
    const bytes = new Uint8Array(kernels.memory.buffer);
    const memory = new Int32Array(kernels.memory.buffer);
    winners.set(bytes.subarray(out, out + rows * width), y * width);
    shared.set(memory.subarray(sharedAt >> 2, (sharedAt >> 2) + n), total);
    shares.set(bytes.subarray(sharesAt, sharesAt + n * planeCount), total * planeCount);
    total += n;
  });
  return total;
}
