import { byteOfLinear, linearOfHex, parseHex } from '../colour/index.ts';
import type { Picture, Plane } from '../raster/index.ts';
import type { Px } from '../units/index.ts';
import { type InkLook, lookOf } from './inkLook.ts';

/** One pull: where its ink lies (0 none, 255 whole points) and how it looks. */
export interface ProofPull extends InkLook {
  readonly plane: Plane;
}

export interface ProofRequest {
  readonly width: Px;
  readonly height: Px;
  readonly veneerHex: string;
  /** The deck's shape, 255 inside; null: wood everywhere. */
  readonly deck: Plane | null;
  /** In pull order: the first lies on the wood. */
  readonly pulls: readonly ProofPull[];
  /** What is drilled through, 255 inside. */
  readonly holes?: Plane | null | undefined;
  /** What lies round the deck and shows through the holes; null (as when left out): transparent. */
  readonly benchHex?: string | null | undefined;
}

/** Steps of the table from light to bytes: the steepest part of the curve then moves by less than a byte a step. */
const STEPS = 4096;

/**
 * The printed face: the pulls composited in order over the veneer, in linear light, clipped to the deck. All planes have the
 * request's size, in one space of the caller's choice, rows from the top; throws when one has another size.
 */
export function composePulls(request: ProofRequest): Picture {
  const { width, height, deck, holes, pulls, benchHex } = request;
  for (const plane of [deck, holes, ...pulls.map((p) => p.plane)])
    if (plane && (plane.width !== width || plane.height !== height))
      throw new RangeError(
        `A proof is ${width} × ${height} points, but one plane is ${plane.width} × ${plane.height}.`,
      );
  const data = new Uint8Array(width * height * 4);
  const byteOf = Uint8Array.from({ length: STEPS + 1 }, (_, i) => byteOfLinear(i / STEPS));
  const looks = pulls.map((pull) => lookOf(pull));
  const wood = linearOfHex(request.veneerHex);
  const bench = benchHex ? linearOfHex(benchHex) : null;
  const row = new Float64Array(width * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) row.set(wood, x * 3);
    for (let p = 0; p < pulls.length; p++) {
      const ink = pulls[p]!.plane.data;
      const [red, green, blue] = looks[p]!;
      for (let x = 0, i = y * width, o = 0; x < width; x++, i++, o += 3) {
        const covered = ink[i]!;
        if (covered === 0) continue;
        const c = covered / 255;
        const r = row[o]!;
        const g = row[o + 1]!;
        const b = row[o + 2]!;
        row[o] = r + c * (red.body + (red.through * r) / (1 - red.r0 * r) - r);
        row[o + 1] = g + c * (green.body + (green.through * g) / (1 - green.r0 * g) - g);
        row[o + 2] = b + c * (blue.body + (blue.through * b) / (1 - blue.r0 * b) - b);
      }
    }
    for (let x = 0, i = y * width, o = 0; x < width; x++, i++, o += 3) {
      const there = (deck ? deck.data[i]! : 255) * (holes ? 255 - holes.data[i]! : 255);
      if (bench && there < 65025)
        for (let c = 0; c < 3; c++) row[o + c] = bench[c]! + ((row[o + c]! - bench[c]!) * there) / 65025;
      const at = i * 4;
      for (let c = 0; c < 3; c++) data[at + c] = byteOf[(row[o + c]! * STEPS + 0.5) | 0]!;
      data[at + 3] = bench ? 255 : Math.round(there / 255);
    }
  }
  if (!bench) clearUnseen(data, parseHex(request.veneerHex));
  return { width, height, data };
}

/** Points without deck carry the wood's colour, so that scaling the picture draws no fringe of ink. */
function clearUnseen(data: Uint8Array, wood: readonly [number, number, number]): void {
  for (let i = 0; i < data.length; i += 4) if (data[i + 3] === 0) data.set(wood, i);
}
