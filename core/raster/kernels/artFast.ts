import { type Kernels, Scratch } from './load.ts';
import { SLOTS } from './lookUpPlain.ts';
import { LaidTables, type SoftTables } from './softTables.ts';

/** Points a band aims at beside the rows that must be kept: with all that is known of them they stay in the processor's cache. */
const BAND = 1 << 17;
/** Rows that are held though nothing is left to find out of them, in reaches of a soft point: see assembly/art.ts. */
const HELD = 6;
/** Bytes that kernels read or write beyond what they are asked for. */
const OVER = 160;
const BINS = 1 << 12;

/** Drawn art's labels, and what soft points are solved with. */
export interface ArtTables extends SoftTables {
  /** By label: four numbers, encoded colour times alpha and alpha; and its OKLab, three. */
  readonly encoded: Float64Array;
  readonly oklab: Float64Array;
  /** Light by byte. */
  readonly light: Float64Array;
}

/** Flat colours that no ink is near, by bin: points, and their sums of red, green and blue; 4096 each. */
export type ColourBins = readonly [Float64Array, Float64Array, Float64Array, Float64Array];

/** Takes what was found in some rows, top to bottom. The lists are the kernels' memory: copy what is kept. */
export interface ArtTaker {
  /** Of the points of rows `from` to before `to` the plane that has most. */
  readonly winners: (from: number, winners: Uint8Array) => void;
  /** Points that several planes share, ascending, and their shares, a byte a plane. */
  readonly shared: (places: Int32Array, shares: Uint8Array) => void;
  /** Points without a sure core in what was found pure, ascending. */
  readonly soft: (places: Int32Array) => void;
}

/** Solves a window of drawn art of `width` × `height` words; into `bins`, if any, unplanned colours are counted. */
export function artFast(
  kernels: Kernels,
  words: Int32Array,
  width: number,
  height: number,
  of: ArtTables,
  planeCount: number,
  bins: ColourBins | null,
  take: ArtTaker,
): void {
  const kept = HELD * Math.max(of.near.reach, of.wide.reach) + 2;
  const most = Math.min(height, kept + Math.max(8, Math.floor(BAND / width)));
  const points = width * most;
  const scratch = new Scratch();
  const encodedAt = scratch.take(of.encoded.byteLength);
  const oklabAt = scratch.take(of.oklab.byteLength);
  const lightAt = scratch.take(of.light.byteLength);
  const memoAt = scratch.take(5 * SLOTS);
  const binsAt = bins ? scratch.take(4 * 8 * BINS) : 0;
  const restAt = scratch.take(14 * 4);
  const toldAt = scratch.take(5 * 4);
  const tables = new LaidTables(scratch, of, width, most + 1);
  const pitch = ((width + 31) >>> 5) << 2;
  const [rightAt, belowAt] = [scratch.take(most * pitch + OVER), scratch.take(most * pitch + OVER)];
  const winnersAt = scratch.take(points + OVER);
  const [softAt, thinAt, likelyAt, goneAt, sharedAt] = Array.from({ length: 5 }, () =>
    scratch.take(4 * points),
  ) as [number, number, number, number, number];
  const thinByteAt = scratch.take(points);
  const sharesAt = scratch.take(points * planeCount + OVER);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const doubles = new Float64Array(kernels.memory.buffer);
  tables.write(kernels);
  doubles.set(of.encoded, encodedAt >> 3);
  doubles.set(of.oklab, oklabAt >> 3);
  doubles.set(of.light, lightAt >> 3);
  bins?.forEach((bin, k) => {
    doubles.set(bin, (binsAt >> 3) + k * BINS);
  });
  memory.set(
    [
      height,
      planeCount,
      rightAt,
      belowAt,
      binsAt,
      softAt,
      thinAt,
      thinByteAt,
      likelyAt,
      goneAt,
      encodedAt,
      oklabAt,
      lightAt,
      memoAt,
    ],
    restAt >> 2,
  );
  kernels.beginArt(tables.table, restAt);
  for (let y = 0; y < height; ) {
    const row = kernels.artRoom();
    const fresh = Math.min(height - y, most - row);
    memory.set(words.subarray(y * width, (y + fresh) * width), (tables.parts.words >> 2) + row * width);
    kernels.artRows(fresh, winnersAt, sharedAt, sharesAt, toldAt);
    y += fresh;
    const told = toldAt >> 2;
    const [from, to, shared] = [memory[told]!, memory[told + 1]!, memory[told + 2]!];
    const [soft, list] = [memory[told + 3]!, memory[told + 4]!];
    take.winners(from, bytes.subarray(winnersAt, winnersAt + (to - from) * width));
    take.shared(
      memory.subarray(sharedAt >> 2, (sharedAt >> 2) + shared),
      bytes.subarray(sharesAt, sharesAt + shared * planeCount),
    );
    take.soft(memory.subarray(list >> 2, (list >> 2) + soft));
  }
  bins?.forEach((bin, k) => {
    bin.set(doubles.subarray((binsAt >> 3) + k * BINS, (binsAt >> 3) + (k + 1) * BINS));
  });
}
