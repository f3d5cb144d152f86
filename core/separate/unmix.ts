import { byteOfLinear, type LinearRgb, srgbToLinear } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import type { Coverage } from './coverage.ts';
import { mixer } from './nearestMixture.ts';

/** Colours as light: bare ground (veneer or base) and each ink as it looks solid over it. */
export interface TonePalette {
  readonly bare: LinearRgb;
  readonly inks: readonly LinearRgb[];
}

/** Even nodes along each axis; encoded levels between two are 8, where light is nearly a straight line. */
const EVEN_NODES = 33;
/** Steps of a level (255ths) in the table, and in sums weighted by 256ths. */
const TABLE_STEPS = 128;
const UNIT_BITS = 15;
const UNIT = 1 << UNIT_BITS;
const HALF = UNIT / 2;

/** One side of the table: its nodes, in encoded levels; for each byte the node below it and the 256ths to the next. */
interface Axis {
  readonly levels: readonly number[];
  readonly below: Int32Array;
  readonly beyond: Int32Array;
}

/**
 * Shares of bare and of each ink for every colour: nodes at even steps of encoded sRGB and, so that inks come out pure, at
 * the palette's own colours; red slowest, blue fastest; `planes` shares a node (bare first), in 128ths of a 255th.
 */
export interface UnmixTable {
  readonly planes: number;
  readonly axes: readonly [Axis, Axis, Axis];
  readonly shares: Uint16Array;
}

function axisOf(colours: readonly LinearRgb[], channel: 0 | 1 | 2): Axis {
  const at = new Set(Array.from({ length: EVEN_NODES }, (_, i) => (i * 255) / (EVEN_NODES - 1)));
  for (const colour of colours) at.add(byteOfLinear(colour[channel]));
  const levels = [...at].sort((a, b) => a - b);
  const below = new Int32Array(256);
  const beyond = new Int32Array(256);
  for (let v = 0, node = 0; v < 256; v++) {
    while (node < levels.length - 2 && levels[node + 1]! <= v) node++;
    below[v] = node;
    beyond[v] = Math.round((256 * (v - levels[node]!)) / (levels[node + 1]! - levels[node]!));
  }
  return { levels, below, beyond };
}

/** The table of a palette: at each node the mixture in linear light that is its colour, or looks nearest; shares at least 0, in sum 1. */
export function unmixTable({ bare, inks }: TonePalette): UnmixTable {
  const colours = [bare, ...inks];
  const planes = colours.length;
  const axes = [axisOf(colours, 0), axisOf(colours, 1), axisOf(colours, 2)] as const;
  const [reds, greens, blues] = axes.map(({ levels }) => levels.map((v) => srgbToLinear(v / 255))) as [
    number[],
    number[],
    number[],
  ];
  const solver = mixer(colours);
  const shares = new Uint16Array(reds.length * greens.length * blues.length * planes);
  const one = new Float64Array(planes);
  for (let r = 0; r < reds.length; r++)
    for (let g = 0; g < greens.length; g++)
      for (let k = 0; k < blues.length; k++) {
        // There and back, so that the solver's next colour is always a neighbour of its last.
        const b = g & 1 ? blues.length - 1 - k : k;
        solver.solveSeen(reds[r]!, greens[g]!, blues[b]!, one);
        const at = ((r * greens.length + g) * blues.length + b) * planes;
        for (let p = 0; p < planes; p++) shares[at + p] = Math.round(one[p]! * 255 * TABLE_STEPS);
      }
  return { planes, axes, shares };
}

/**
 * Coverages of a picture, point by point: the table interpolated in the tetrahedron that holds the colour. Transparent
 * points are bare by as much as they are transparent. The planes sum to 255 at every point: what rounding leaves of one goes
 * to the next.
 */
export function unmixPicture(picture: Picture, table: UnmixTable): Coverage {
  const { width, height, data } = picture;
  const { planes: count, shares } = table;
  const points = width * height;
  const planes = Array.from({ length: count }, () => new Uint8Array(points));
  // One plane after another over a row's corners and weights: each loop then touches one output only.
  const row = new Int32Array(width * 4);
  const weights = new Int32Array(width * 4);
  const sums = new Int32Array(width);
  const given = new Uint8Array(width);
  for (let y = 0; y < height; y++) {
    corners(data, y * width, width, table, row, weights);
    for (let x = 0; x < width; x++) {
      sums[x] = (255 - data[4 * (y * width + x) + 3]!) * UNIT + HALF;
      given[x] = 0;
    }
    for (let p = 0; p < count; p++) {
      const plane = planes[p]!;
      const end = p === count - 1;
      for (let x = 0, c = 0, i = y * width; x < width; x++, c += 4, i++) {
        let share =
          (weights[c]! * shares[row[c]! + p]! +
            weights[c + 1]! * shares[row[c + 1]! + p]! +
            weights[c + 2]! * shares[row[c + 2]! + p]! +
            weights[c + 3]! * shares[row[c + 3]! + p]!) |
          0;
        const alpha = data[4 * i + 3]!;
        if (alpha !== 255) share = (share / 255) * alpha;
        const sum = (sums[x]! + share) | 0;
        sums[x] = sum;
        const upTo = end || sum >= 255 * UNIT + HALF ? 255 : sum >> UNIT_BITS;
        plane[i] = upTo - given[x]!;
        given[x] = upTo;
      }
    }
  }
  return { width, height, planes };
}

/**
 * For each point of a row the four corners (places of their first share) of the tetrahedron of table nodes that holds its
 * colour, from the low corner of the cube to the high one along the axes in the order of their fractions; and their weights.
 */
function corners(
  data: Uint8Array | Uint8ClampedArray,
  first: number,
  width: number,
  { axes, planes }: UnmixTable,
  nodes: Int32Array,
  weights: Int32Array,
): void {
  const stepB = planes;
  const stepG = axes[2].levels.length * stepB;
  const stepR = axes[1].levels.length * stepG;
  const { below: belowR, beyond: beyondR } = axes[0];
  const { below: belowG, beyond: beyondG } = axes[1];
  const { below: belowB, beyond: beyondB } = axes[2];
  for (let x = 0, o = 4 * first, c = 0; x < width; x++, o += 4, c += 4) {
    const r = data[o]!;
    const g = data[o + 1]!;
    const b = data[o + 2]!;
    const from = belowR[r]! * stepR + belowG[g]! * stepG + belowB[b]! * stepB;
    const fr = beyondR[r]!;
    const fg = beyondG[g]!;
    const fb = beyondB[b]!;
    // The axis with the largest fraction comes first, the one with the least last.
    const most = fr >= fg ? (fr >= fb ? stepR : stepB) : fg >= fb ? stepG : stepB;
    const least = fr >= fg ? (fb > fg ? stepG : stepB) : fb > fr ? stepR : stepB;
    const high = most === stepR ? fr : most === stepG ? fg : fb;
    const low = least === stepR ? fr : least === stepG ? fg : fb;
    const middle = fr + fg + fb - high - low;
    nodes[c] = from;
    nodes[c + 1] = from + most;
    nodes[c + 2] = from + stepR + stepG + stepB - least;
    nodes[c + 3] = from + stepR + stepG + stepB;
    weights[c] = 256 - high;
    weights[c + 1] = high - middle;
    weights[c + 2] = middle - low;
    weights[c + 3] = low;
  }
}
