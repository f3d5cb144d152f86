import type { Kernels, Scratch } from './load.ts';

/** Bytes of the kernel's own sums, candidates, parts and near places: see `begin` in assembly/softPoints.ts. */
const STATE = 64 * (52 + 8 + 32) + 1024;

/** Places about a point, the nearest first. */
export interface SoftRing {
  /** dx, dy one after the other. */
  readonly offsets: Int32Array;
  readonly squares: Int32Array;
  readonly reach: number;
}

/** What soft points are solved with. */
export interface SoftTables {
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

/** The tables in the kernels' memory, with room for a band of `rows` rows of `width` points. */
export class LaidTables {
  /** Where the kernel finds all of it. */
  readonly table: number;
  /** Of every point of the band its word, its code and its core. */
  readonly parts: Readonly<Record<'words' | 'codes' | 'cores', number>>;
  private readonly near: Int32Array;
  private readonly wide: Int32Array;
  private readonly at: Readonly<
    Record<'colours' | 'planes' | 'curve' | 'weights' | 'near' | 'wide' | 'exactness' | 'state', number>
  >;

  constructor(
    scratch: Scratch,
    private readonly of: SoftTables,
    private readonly width: number,
    rows: number,
  ) {
    this.near = places(of.near);
    this.wide = places(of.wide);
    this.table = scratch.take(19 * 4);
    this.at = {
      colours: scratch.take(of.colours.byteLength),
      planes: scratch.take(of.planes.length),
      curve: scratch.take(of.curve.byteLength),
      weights: scratch.take(of.weights.byteLength),
      near: scratch.take(this.near.byteLength),
      wide: scratch.take(this.wide.byteLength),
      exactness: scratch.take(of.exactness.byteLength),
      state: scratch.take(STATE),
    };
    this.parts = {
      words: scratch.take(4 * width * rows),
      codes: scratch.take(width * rows),
      cores: scratch.take(width * rows),
    };
  }

  /** Writes them; the memory was made sure of. */
  write(kernels: Kernels): void {
    const { of, at, parts, near, wide } = this;
    const memory = new Int32Array(kernels.memory.buffer);
    const doubles = new Float64Array(kernels.memory.buffer);
    doubles.set(of.colours, at.colours >> 3);
    new Uint8Array(kernels.memory.buffer).set(of.planes, at.planes);
    doubles.set(of.curve, at.curve >> 3);
    doubles.set(of.weights, at.weights >> 3);
    memory.set(near, at.near >> 2);
    memory.set(wide, at.wide >> 2);
    doubles.set(of.exactness, at.exactness >> 3);
    memory.fill(0, at.state >> 2, (at.state + STATE) >> 2);
    memory.set(
      [
        parts.words,
        parts.codes,
        parts.cores,
        this.width,
        0,
        at.colours,
        at.planes,
        of.planes.length,
        at.curve,
        at.weights,
        at.near,
        near.length / 3,
        of.near.reach,
        at.wide,
        wide.length / 3,
        of.wide.reach,
        at.exactness,
        at.state,
        0,
      ],
      this.table >> 2,
    );
  }
}

/** dx, dy and dx² + dy² of each. */
const places = ({ offsets, squares }: SoftRing): Int32Array =>
  Int32Array.from({ length: 3 * squares.length }, (_, i) =>
    i % 3 === 2 ? squares[(i - 2) / 3]! : offsets[2 * Math.floor(i / 3) + (i % 3)]!,
  );
