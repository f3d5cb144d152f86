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
const BYTE_OF = Uint8Array.from({ length: STEPS + 1 }, (_, i) => byteOfLinear(i / STEPS));

/** Pulls that a key has bits for; more are composed point by point. */
const MOST_KEYED = 24;
/** In a key: some pull covers the point in part. */
const SOFT = 1 << 24;

/**
 * The printed face: the pulls composited in order over the veneer, in linear light, clipped to the deck. All planes have the
 * request's size, in one space of the caller's choice, rows from the top; throws when one has another size.
 *
 * Nearly all points are covered wholly or not at all by each pull, and few such stacks of ink are different: each is mixed once.
 */
export function composePulls(request: ProofRequest): Picture {
  const { width, height, deck, holes, pulls, benchHex } = request;
  for (const plane of [deck, holes, ...pulls.map((p) => p.plane)])
    if (plane && (plane.width !== width || plane.height !== height))
      throw new RangeError(
        `A proof is ${width} × ${height} points, but one plane is ${plane.width} × ${plane.height}.`,
      );
  const data = new Uint8Array(width * height * 4);
  const looks = pulls.map((pull) => lookOf(pull));
  const planes = pulls.map((pull) => pull.plane.data);
  const wood = linearOfHex(request.veneerHex);
  const bench = benchHex ? linearOfHex(benchHex) : null;
  const bare = parseHex(request.veneerHex);
  const light = new Float64Array(3);
  /** The light of point i: its pulls over wood. */
  const mix = (i: number) => {
    light[0] = wood[0];
    light[1] = wood[1];
    light[2] = wood[2];
    for (let p = 0; p < planes.length; p++) {
      const covered = planes[p]![i]!;
      if (covered === 0) continue;
      const c = covered / 255;
      const look = looks[p]!;
      for (let n = 0; n < 3; n++) {
        const under = light[n]!;
        const { body, through, r0 } = look[n as 0 | 1 | 2];
        light[n] = under + c * (body + (through * under) / (1 - r0 * under) - under);
      }
    }
  };
  const put = (i: number, there: number) => {
    const at = i * 4;
    for (let n = 0; n < 3; n++) {
      let value = light[n]!;
      if (bench && there < 65025)
        value = bench[n as 0 | 1 | 2] + ((value - bench[n as 0 | 1 | 2]) * there) / 65025;
      data[at + n] = BYTE_OF[(value * STEPS + 0.5) | 0]!;
    }
    data[at + 3] = bench ? 255 : Math.round(there / 255);
    // Points without deck carry the wood's colour, so that scaling the picture draws no fringe of ink.
    if (data[at + 3] === 0) data.set(bare, at);
  };
  const words = new Uint32Array(data.buffer);
  const known = new Map<number, number>();
  const keys = new Int32Array(width);
  for (let y = 0; y < height; y++) {
    const row = y * width;
    keyRow(planes, row, keys);
    // The stack of the point before, and how it looks; most points have it too.
    let last = SOFT;
    let word = 0;
    for (let x = 0, i = row; x < width; x++, i++) {
      const there = (deck ? deck.data[i]! : 255) * (holes ? 255 - holes.data[i]! : 255);
      const key = keys[x]!;
      if (there < 65025 || key & SOFT) {
        if (there === 0 && !bench) {
          data.set(bare, i * 4);
          continue;
        }
        mix(i);
        put(i, there);
        continue;
      }
      if (key !== last) {
        last = key;
        const found = known.get(key);
        if (found === undefined) {
          mix(i);
          put(i, there);
          word = words[i]!;
          known.set(key, word);
          continue;
        }
        word = found;
      }
      words[i] = word;
    }
  }
  return { width, height, data };
}

/** For each point of a row a bit for every pull that covers it wholly, and `SOFT` where one covers it in part. */
function keyRow(planes: readonly Uint8Array[], row: number, keys: Int32Array): void {
  if (planes.length > MOST_KEYED) {
    keys.fill(SOFT);
    return;
  }
  keys.fill(0);
  for (const [p, plane] of planes.entries()) {
    const bit = 1 << p;
    for (let x = 0, i = row; x < keys.length; x++, i++) {
      const covered = plane[i]!;
      if (covered !== 0) keys[x] = keys[x]! | (covered === 255 ? bit : SOFT);
    }
  }
}
