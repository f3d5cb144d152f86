import type { GrowRows } from './growPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of input rows a band aims at: it then stays in the processor's second cache with its output. */
const BAND = 1 << 18;
/** Bytes of a row that are passed over where they are bare or solid; what lies between is worked on as one. */
const BLOCK = 512;

/** Points that a pass of the kernel grows by at most, and rows on either side that it adds at most. */
const MOST_GROWTH = 4;
const MOST_ROWS = 4;

/**
 * The disc as passes over a row, three numbers each: growth, rows to add thereafter above and as many below, the first of them. The
 * order is that of `growPlain.ts`; rows of one half-width are added together.
 */
function passesOf(half: Int32Array): Int32Array {
  const all: number[] = [];
  const reach = half.length - 1;
  for (let v = 1; v <= reach; ) {
    let by = half[v - 1]! - half[v]!;
    for (; by > MOST_GROWTH; by -= MOST_GROWTH) all.push(MOST_GROWTH, 0, v);
    let end = v + 1;
    while (end <= reach && half[end] === half[v]) end++;
    // Only the smallest growth takes more than one pair of rows along.
    for (; v < end; by = 0) {
      const rows = Math.min(by > 1 ? 1 : MOST_ROWS, end - v);
      all.push(by, rows, v);
      v += rows;
    }
  }
  for (let by = half[reach]!; by > 0; by -= MOST_GROWTH) all.push(Math.min(by, MOST_GROWTH), 0, 0);
  // A disc of one point leaves the rows as they are, in one pass.
  return Int32Array.from(all.length ? all : [0, 0, 0]);
}

/** The disc and the kernel's working rows in its memory. */
export class Disc {
  readonly reach: number;
  readonly halo: number;
  readonly block: number;
  private readonly passes: Int32Array;
  private readonly passesAt: number;
  private readonly room: number;
  private readonly rowsAt: number;
  private readonly kindsAt: number;
  private readonly countsAt: number;

  constructor(
    scratch: Scratch,
    private readonly of: GrowRows,
    /** Rows that a call may be given. */
    most: number,
  ) {
    this.reach = of.half.length - 1;
    this.halo = Math.ceil(this.reach / 128) * 16;
    this.block = Math.max(BLOCK, 2 * this.halo);
    this.passes = passesOf(of.half);
    this.passesAt = scratch.take(this.passes.length * 4);
    // Guards of 16 bytes on either side of both accumulators and behind the row of zeros.
    this.room = of.stride * 4 + 2 * this.halo + 32;
    this.rowsAt = scratch.take(3 * this.room + 16) + 16;
    const blocks = Math.ceil((of.stride * 4) / this.block);
    this.kindsAt = scratch.take(most * blocks);
    this.countsAt = scratch.take(blocks * 8);
  }

  prepare(memory: Int32Array): void {
    memory.set(this.passes, this.passesAt >> 2);
    memory.fill(0, (this.rowsAt - 16) >> 2, (this.rowsAt + 3 * this.room) >> 2);
  }

  /** Rows `first` to `first + rows` of the `inRows` rows at `input`, to `output`. */
  run(
    kernels: Kernels,
    input: number,
    output: number,
    first: number,
    rows: number,
    inRows: number,
    shrinking: boolean,
  ) {
    const { stride, words, tail } = this.of;
    kernels.growRows(
      input,
      output,
      stride * 4,
      words,
      tail,
      first,
      rows,
      inRows,
      this.passesAt,
      this.passes.length / 3,
      this.reach,
      this.block,
      this.halo,
      this.rowsAt,
      this.rowsAt + this.room,
      this.rowsAt + 2 * this.room,
      this.kindsAt,
      this.countsAt,
      shrinking ? 1 : 0,
    );
  }
}

/**
 * The compiled twin of `growRowsPlain`, with bits beyond the width cleared: works through bands of rows copied to the
 * kernels' memory, each with as many rows above and below as the disc reaches.
 */
export function growRowsFast(
  kernels: Kernels,
  input: Int32Array,
  output: Int32Array,
  of: GrowRows,
  shrinking: boolean,
): void {
  const { stride, height } = of;
  const reach = of.half.length - 1;
  const bytes = stride * 4;
  const bandRows = Math.max(16, 2 * reach, Math.floor(BAND / bytes));
  const most = Math.min(height, bandRows + 2 * reach);
  const scratch = new Scratch();
  const disc = new Disc(scratch, of, most);
  const inputAt = scratch.take(most * bytes);
  const outputAt = scratch.take(Math.min(height, bandRows) * bytes);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  disc.prepare(memory);
  for (let y = 0; y < height; y += bandRows) {
    const rows = Math.min(bandRows, height - y);
    const top = Math.max(0, y - reach);
    const bottom = Math.min(height, y + rows + reach);
    memory.set(input.subarray(top * stride, bottom * stride), inputAt >> 2);
    disc.run(kernels, inputAt, outputAt, y - top, rows, bottom - top, shrinking);
    output.set(memory.subarray(outputAt >> 2, (outputAt >> 2) + rows * stride), y * stride);
  }
}

/**
 * Shrinks and grows again band by band, so that what lies between never leaves the cache: the opening, or with `thin` what the
 * opening takes away. `output` must not overlap `input`.
 */
export function openRowsFast(
  kernels: Kernels,
  input: Int32Array,
  output: Int32Array,
  of: GrowRows,
  thin: boolean,
): void {
  const { stride, height } = of;
  const reach = of.half.length - 1;
  const bytes = stride * 4;
  const bandRows = Math.max(16, 4 * reach, Math.floor(BAND / bytes));
  const most = Math.min(height, bandRows + 4 * reach);
  const scratch = new Scratch();
  const disc = new Disc(scratch, of, most);
  const inputAt = scratch.take(most * bytes);
  const coreAt = scratch.take(Math.min(height, bandRows + 2 * reach) * bytes);
  const outputAt = scratch.take(Math.min(height, bandRows) * bytes);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  disc.prepare(memory);
  for (let y = 0; y < height; y += bandRows) {
    const rows = Math.min(bandRows, height - y);
    const top = Math.max(0, y - 2 * reach);
    const bottom = Math.min(height, y + rows + 2 * reach);
    memory.set(input.subarray(top * stride, bottom * stride), inputAt >> 2);
    const coreTop = Math.max(0, y - reach);
    const coreBottom = Math.min(height, y + rows + reach);
    disc.run(kernels, inputAt, coreAt, coreTop - top, coreBottom - coreTop, bottom - top, true);
    disc.run(kernels, coreAt, outputAt, y - coreTop, rows, coreBottom - coreTop, false);
    if (thin) kernels.withoutRows(inputAt + (y - top) * bytes, outputAt, rows * bytes);
    output.set(memory.subarray(outputAt >> 2, (outputAt >> 2) + rows * stride), y * stride);
  }
}
