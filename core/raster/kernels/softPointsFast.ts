import { countBelow } from '../sparseCoverage.ts';
import { type Kernels, Scratch } from './load.ts';
import { LaidTables, type SoftTables } from './softTables.ts';

/** Bytes of art a band aims at, without what it needs above and below. */
const BAND = 1 << 19;
/** A window's points, and what the soft ones are solved with. */
export interface SoftPoints extends SoftTables {
  readonly width: number;
  readonly height: number;
  /** Of every point its word, its code and its core. */
  readonly words: Int32Array;
  readonly codes: Uint8Array;
  readonly cores: Uint8Array;
}

/** The kernel's tables for one picture, and its bands brought one after the other. */
class Bands {
  private readonly scratch = new Scratch();
  private readonly rows: number;
  private readonly tables: LaidTables;

  constructor(
    private readonly kernels: Kernels,
    private readonly of: SoftPoints,
  ) {
    const { scratch } = this;
    this.rows = Math.max(1, Math.min(of.height, Math.floor(BAND / (4 * of.width))));
    this.tables = new LaidTables(scratch, of, of.width, this.rows + 2 * of.wide.reach);
    scratch.reserve(kernels);
    this.tables.write(kernels);
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
    const { of } = this;
    const { parts, table } = this.tables;
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
      memory[(table >> 2) + 4] = last - first;
      memory[(table >> 2) + 18] = base;
      memory.set(places.subarray(from, to), at >> 2);
      visit(band, table, at, out);
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
