import {
  byteOfLinear,
  deltaE00,
  LINEAR_OF_BYTE,
  labOfLinear,
  linearOfHex,
  parseHex,
} from '../colour/index.ts';
import type { Picture, SparseCoverage } from '../raster/index.ts';
import type { Coverage } from './coverage.ts';
import { reducePicture } from './reducePicture.ts';
import { separateSparse } from './separateWindow.ts';
import { unmixPicture, unmixTable } from './unmix.ts';

/** How near inks come to the art, over its inked points: ΔE00 (CIE 142:2001). */
export interface InkFit {
  readonly mean: number;
  /** 95 of 100 points are nearer than this. */
  readonly most: number;
  /** Share of the points, 0 to 1, that are more than 5 off: seen at a glance. */
  readonly off: number;
  /** The art in these inks, small; transparent where it is bare. */
  readonly proof: Picture;
}

export interface InkFitOptions {
  /** The art's paper, which needs no ink. */
  readonly ground?: string | null | undefined;
  /** The wood between the dots of shaded art, #rrggbb. */
  readonly bare: string;
  /** Shaded art in dots: colours mix. Else each point has one ink. */
  readonly toned: boolean;
}

/** Points along the longer side at which art and proof are compared: fine lines still show. */
const SIDE = 560;
/** Points at which spot inks are tried; larger art is reduced first. Three tries of so many take a moment. */
const MOST_POINTS = 4_000_000;
const OFF = 5;

/** The art as inks are tried on it, and how it is then compared. */
export interface TriedArt {
  readonly picture: Picture;
  /** Squares of so many points on a side become one point of the proof. */
  readonly factor: number;
  /** Reducing mixes in light; what a program drew is mixed in encoded values. */
  readonly blend: 'encoded' | 'linear';
}

/**
 * The art at the size at which inks are tried on it. Spot inks are tried on the art's own points: made small first, each line
 * thinner than a point would be a mix that no ink prints, and the art's own inks would look wrong. Tones mix anyway.
 */
export function artToTry(picture: Picture, toned: boolean): TriedArt {
  const shown = Math.max(1, Math.round(Math.max(picture.width, picture.height) / SIDE));
  if (toned) return { picture: reducePicture(picture, shown), factor: 1, blend: 'linear' };
  const before = Math.ceil(Math.sqrt((picture.width * picture.height) / MOST_POINTS));
  return {
    picture: reducePicture(picture, Math.max(1, before)),
    factor: Math.max(1, Math.round(shown / Math.max(1, before))),
    blend: before > 1 ? 'linear' : 'encoded',
  };
}

/**
 * How the art looks in these inks, each taken as solid, and how far off that is: both are averaged over squares of
 * `tried.factor` points, as an eye that does not see single points would, and compared there.
 */
export function inkFit(
  tried: TriedArt,
  inks: readonly { readonly hex: string }[],
  options: InkFitOptions,
): InkFit {
  const { picture: art, factor } = tried;
  const ground = options.ground ?? null;
  const coverage = coverageOf(tried, inks, options, ground);
  const mixer = newMixer([ground ?? options.bare, ...inks.map(({ hex }) => hex)], tried.blend, {
    // Where drawn art is see-through, what is bare shows nothing; between dots, and where it has a paper, that shows.
    bareShows: ground !== null || options.toned,
    bareIsProof: options.toned,
  });
  const width = Math.ceil(art.width / factor);
  const height = Math.ceil(art.height / factor);
  const data = new Uint8Array(width * height * 4);
  const found: number[] = [];
  /** Sums over one row of squares, `SUMS` values a square. */
  const sums = new Float64Array(width * SUMS);
  for (let y = 0, i = 0, shared = 0; y < art.height; y++) {
    for (let x = 0; x < art.width; x++, i++) {
      const at = Math.floor(x / factor) * SUMS;
      const mixed = coverage.shared[shared] === i;
      const point = mixed
        ? mixer.mix(coverage.shares, shared++ * coverage.planeCount)
        : mixer.pure[coverage.winners[i]!]!;
      const alpha = art.data[i * 4 + 3]! / 255;
      sums[at + POINTS]! += 1;
      sums[at + ALPHA]! += alpha;
      sums[at + BARE]! += point.bare;
      sums[at + PRINTED]! += point.printed;
      for (let c = 0; c < 3; c++) {
        sums[at + ART + c]! += alpha * LINEAR_OF_BYTE[art.data[i * 4 + c]!]!;
        sums[at + SEEN + c]! += alpha * point.seen[c]!;
        sums[at + INK + c]! += point.printed * point.ink[c]!;
      }
    }
    if (y + 1 < art.height && (y + 1) % factor !== 0) continue;
    const row = Math.floor(y / factor);
    for (let col = 0; col < width; col++) {
      const at = col * SUMS;
      const points = sums[at + POINTS]!;
      const printed = sums[at + PRINTED]!;
      const to = 4 * (row * width + col);
      if (printed > 0) {
        for (let c = 0; c < 3; c++) data[to + c] = byteOfLinear(sums[at + INK + c]! / printed);
        data[to + 3] = Math.round((printed / points) * 255);
      }
      if (sums[at + ALPHA]! < points / 2 || (ground !== null && sums[at + BARE]! > points / 2)) continue;
      const weight = sums[at + ALPHA]!;
      const light = (of: number) =>
        labOfLinear([sums[at + of]! / weight, sums[at + of + 1]! / weight, sums[at + of + 2]! / weight]);
      found.push(deltaE00(light(SEEN), light(ART)));
    }
    sums.fill(0);
  }
  return { ...figuresOf(found), proof: { width, height, data } };
}

/** What is summed over a square: counts, then light of the art, of the art in inks, and of the inks alone. */
const [POINTS, ALPHA, BARE, PRINTED, ART, SEEN, INK, SUMS] = [0, 1, 2, 3, 4, 7, 10, 13];

/** One point of the art in inks, in light. */
interface InkedPoint {
  /** Share without ink, 0 to 1. */
  bare: number;
  /** Share that the proof shows, and its colour. */
  printed: number;
  readonly ink: number[];
  /** What is compared with the art. */
  readonly seen: number[];
}

/** Mixes colours (that of what is bare first) by shares in 255ths, in the values in which the art's edges were mixed. */
function newMixer(
  hexes: readonly string[],
  blend: TriedArt['blend'],
  { bareShows, bareIsProof }: { readonly bareShows: boolean; readonly bareIsProof: boolean },
) {
  const linear = blend === 'linear';
  const colours = hexes.map((hex) => (linear ? linearOfHex(hex) : parseHex(hex)));
  const light = (value: number) => (linear ? value : LINEAR_OF_BYTE[Math.round(value)]!);
  const mixInto = (point: InkedPoint, shares: ArrayLike<number>, at: number): InkedPoint => {
    point.bare = shares[at]! / 255;
    const inked = 1 - point.bare;
    const withBare = bareShows || inked === 0;
    point.printed = bareIsProof && inked > 0 ? 1 : inked;
    for (let c = 0; c < 3; c++) {
      let sum = 0;
      for (let p = 1; p < colours.length; p++) sum += (shares[at + p]! / 255) * colours[p]![c]!;
      const all = sum + point.bare * colours[0]![c]!;
      point.seen[c] = light(withBare ? all : sum / inked);
      point.ink[c] = bareIsProof ? point.seen[c]! : inked === 0 ? 0 : light(sum / inked);
    }
    return point;
  };
  const blank = (): InkedPoint => ({ bare: 0, printed: 0, ink: [0, 0, 0], seen: [0, 0, 0] });
  const one = blank();
  return {
    pure: colours.map((_, p) =>
      mixInto(
        blank(),
        colours.map((_, q) => (q === p ? 255 : 0)),
        0,
      ),
    ),
    /** The answer is used again by the next call. */
    mix: (shares: ArrayLike<number>, at: number) => mixInto(one, shares, at),
  };
}

function figuresOf(found: readonly number[]): Omit<InkFit, 'proof'> {
  if (found.length === 0) return { mean: 0, most: 0, off: 0 };
  const sorted = Float64Array.from(found).sort();
  return {
    mean: found.reduce((sum, d) => sum + d, 0) / found.length,
    most: sorted[Math.min(found.length - 1, Math.floor(0.95 * found.length))]!,
    off: found.filter((d) => d > OFF).length / found.length,
  };
}

function coverageOf(
  { picture, blend }: TriedArt,
  inks: readonly { readonly hex: string }[],
  { bare, toned }: InkFitOptions,
  ground: string | null,
): SparseCoverage {
  if (!toned) return separateSparse(picture, { inks, ground }, { blend });
  const palette = { bare: linearOfHex(bare), inks: inks.map(({ hex }) => linearOfHex(hex)) };
  return sparseOf(unmixPicture(picture, unmixTable(palette)));
}

/** Every point of the planes as a shared one. */
function sparseOf({ width, height, planes }: Coverage): SparseCoverage {
  const points = width * height;
  const planeCount = planes.length;
  const shares = new Uint8Array(points * planeCount);
  planes.forEach((plane, p) => {
    for (let i = 0; i < points; i++) shares[i * planeCount + p] = plane[i]!;
  });
  const shared = Int32Array.from({ length: points }, (_, i) => i);
  return { width, height, planeCount, winners: new Uint8Array(points), shared, shares };
}
