import type { Picture, SoftPoints, SoftTables } from '../raster/index.ts';
import { LIKELY, SURE } from './cores.ts';
import { FAR, LABEL, type Labels, MOST_LABELS, TIGHT } from './labels.ts';
import { addCandidate, addLabel, type Mixer, newMixer, solveMix } from './mix.ts';
import type { Workspace } from './workspace.ts';

/** Points about a soft point in which pure labels are looked for first, and then if those leave too much unexplained. */
const NEAR = 2;
const WIDE = 5;
/** How exact the art's colours are, in encoded levels. */
export interface Exactness {
  /** An explanation this cheap is taken at once. */
  readonly good: number;
  /** Price of the point's own nearest label where no core of it is about. */
  readonly ownPrice: number;
  /** No mix of other labels may come within these, for a point of a label's very colour and for one near it, to make a thin line. */
  readonly tightAlone: number;
  readonly looseAlone: number;
  /** Weight of colour beside lightness: compression smears colour over several points, and lightness hardly. */
  readonly chroma: number;
  /** Beyond this a lone neighbour explains nothing, and a hairline of an ink without pure points is tried. */
  readonly unexplained: number;
}
export const DRAWN_ART: Exactness = {
  good: 8,
  ownPrice: 10,
  tightAlone: 6,
  looseAlone: 14,
  chroma: 1,
  unexplained: 30,
};
/** Compression rings by some twenty levels along edges. */
export const GRAINY_ART: Exactness = {
  good: 24,
  ownPrice: 28,
  tightAlone: 25,
  looseAlone: 25,
  chroma: 0.35,
  unexplained: 45,
};
const HAIRLINE_COST = 12;
/** Share of an ink below which a hairline is not made of it: a seam between two shapes lets a quarter shine through. */
const HAIRLINE_SHARE = 0.35;
/** Price of a label, encoded levels, for each point its nearest core is farther away than next door. */
const PER_POINT = 1.5;
/** The farther such a point is from the label's colour, the worse everything else must explain it. */
const LOOSE_SLACK = 2;
/** Alpha, 0 to 255, below which a point counts as partly transparent. */
const SEE_THROUGH = 250;
/** Weight of a likely core in the local colour of its label beside a sure one. */
const LIKELY_WEIGHT = 1 / 64;
/** Of a likely core, then of a sure one; and times alpha as a share, 256 values each. */
const WEIGHT = Float64Array.of(LIKELY_WEIGHT, 1);
const ALPHA_WEIGHT = Float64Array.from({ length: 512 }, (_, i) => (WEIGHT[i >> 8]! * (i & 255)) / 255);

/** Offsets from a point, the nearest first. */
interface Ring {
  /** dx and dy one after the other. */
  readonly offsets: Int32Array;
  /** dx² + dy² of each. */
  readonly squares: Int32Array;
  /** The largest |dx| and |dy|. */
  readonly reach: number;
  /** The offsets as places in the picture of that width they were last asked for, and that width. */
  readonly places: Int32Array;
  width: number;
}

/** The ring's offsets as places in a picture of `width` points a row. */
function placesIn(ring: Ring, width: number): Int32Array {
  const { places, offsets } = ring;
  if (ring.width !== width) {
    for (let k = 0; k < places.length; k++) places[k] = offsets[2 * k + 1]! * width + offsets[2 * k]!;
    ring.width = width;
  }
  return places;
}

/** Offsets within `from` < max(|dx|, |dy|) ≤ `to`. */
function ring(from: number, to: number): Ring {
  const all: [number, number][] = [];
  for (let dy = -to; dy <= to; dy++)
    for (let dx = -to; dx <= to; dx++) if (Math.max(Math.abs(dx), Math.abs(dy)) > from) all.push([dx, dy]);
  all.sort((a, b) => a[0] ** 2 + a[1] ** 2 - (b[0] ** 2 + b[1] ** 2));
  return {
    offsets: Int32Array.from(all.flat()),
    squares: Int32Array.from(all, ([dx, dy]) => dx * dx + dy * dy),
    reach: to,
    places: new Int32Array(all.length),
    width: -1,
  };
}
const NEAR_RING = ring(0, NEAR);
const WIDE_RING = ring(NEAR, WIDE);

/** Everything needed to solve the soft points of one window; the answer stands in `mixer`. */
export interface EdgeSolver {
  readonly picture: Picture;
  /** Its points, each one word of a little-endian machine. */
  readonly words: Int32Array;
  readonly codes: Uint8Array;
  cores: Uint8Array;
  readonly labels: Labels;
  readonly exactness: Exactness;
  readonly mixer: Mixer;
  /** The point being solved: r, g, b times alpha, alpha. */
  readonly point: Float64Array;
  /** Value of each byte in the space the mixing is undone in; alpha is linear anyway. */
  readonly curve: Float64Array;
  /** Sums over the cores seen about the point, by label: r, g, b, alpha, weight. */
  readonly sums: Float64Array;
  readonly seen: Int32Array;
  /** Square of the distance of the nearest core of each label seen. */
  readonly nearest: Float64Array;
  seenCount: number;
}

/** Luma as JPEG computes it (ITU-R BT.601). */
const lightness = (r: number, g: number, b: number): number => 0.299 * r + 0.587 * g + 0.114 * b;
const towardsGrey = (v: number, grey: number, chroma: number): number => grey + (v - grey) * chroma;

/** The values of bytes where art was mixed as they are encoded. */
const ENCODED = Float64Array.from({ length: 256 }, (_, i) => i);

/** The labels' colours in the values that mixing is undone in, with as little colour beside lightness as the art is exact about. */
function mixingColours(labels: Labels, values: Float64Array, { chroma }: Exactness): Float64Array {
  const bent = labels.colour.map((v, i) => (i % 4 === 3 ? v : values[v]!));
  for (let o = 0; o < bent.length; o += 4) {
    const grey = lightness(bent[o]!, bent[o + 1]!, bent[o + 2]!);
    for (let c = 0; c < 3; c++) bent[o + c] = towardsGrey(bent[o + c]!, grey, chroma);
  }
  return bent;
}

export function newEdgeSolver(
  picture: Picture,
  words: Int32Array,
  codes: Uint8Array,
  cores: Uint8Array,
  labels: Labels,
  curve: Float64Array | null,
  exactness: Exactness,
): EdgeSolver {
  const values = curve ?? ENCODED;
  const bent = mixingColours(labels, values, exactness);
  return {
    picture,
    words,
    codes,
    cores,
    labels: { ...labels, colour: bent },
    exactness,
    mixer: newMixer(),
    point: new Float64Array(4),
    curve: values,
    sums: new Float64Array(MOST_LABELS * 5),
    seen: new Int32Array(MOST_LABELS),
    nearest: new Float64Array(MOST_LABELS),
    seenCount: 0,
  };
}

/** What a solver of these has, as tables for the kernel that does the same. */
export function softTablesOf(labels: Labels, curve: Float64Array | null, exactness: Exactness): SoftTables {
  const values = curve ?? ENCODED;
  return tablesOf(mixingColours(labels, values, exactness), labels.plane, values, exactness);
}

function tablesOf(
  colours: Float64Array,
  planes: Uint8Array,
  curve: Float64Array,
  exactness: Exactness,
): SoftTables {
  const { good, ownPrice, tightAlone, looseAlone, chroma, unexplained } = exactness;
  return {
    colours,
    planes,
    curve,
    weights: ALPHA_WEIGHT,
    near: NEAR_RING,
    wide: WIDE_RING,
    exactness: Float64Array.of(good, ownPrice, tightAlone, looseAlone, chroma, unexplained),
  };
}

/** The solver's points and tables for that kernel. */
export function softPointsOf(s: EdgeSolver): SoftPoints {
  const { picture, words, codes, cores, labels, curve, exactness } = s;
  const { width, height } = picture;
  return { ...tablesOf(labels.colour, labels.plane, curve, exactness), width, height, words, codes, cores };
}

/** Adds `count` cores of one label and colour, the first of them √`square` away, to the sums of their label. */
function addCores(s: EdgeSolver, core: number, word: number, count: number, square: number): void {
  const { sums, curve } = s;
  const label = core & LABEL;
  const at = label * 5;
  const before = sums[at + 4]!;
  if (before === 0) {
    s.nearest[s.seenCount] = square;
    s.seen[s.seenCount++] = label;
  }
  const alpha = word >>> 24;
  const sure = core >>> 7;
  const weight = WEIGHT[sure]! * count;
  const w = ALPHA_WEIGHT[(sure << 8) | alpha]! * count;
  sums[at] = sums[at]! + w * curve[word & 255]!;
  sums[at + 1] = sums[at + 1]! + w * curve[(word >>> 8) & 255]!;
  sums[at + 2] = sums[at + 2]! + w * curve[(word >>> 16) & 255]!;
  sums[at + 3] = sums[at + 3]! + weight * alpha;
  sums[at + 4] = before + weight;
}

/**
 * Adds the cores of a ring of offsets about (x, y) to the sums of their labels. In drawn art they are nearly always of two
 * kinds, one on each side of an edge: those are only counted.
 */
function gather(s: EdgeSolver, x: number, y: number, ring: Ring): void {
  const { width, height } = s.picture;
  const { words, cores } = s;
  const { offsets, squares, reach } = ring;
  const inside = x >= reach && y >= reach && x + reach < width && y + reach < height;
  const here = y * width + x;
  const places = placesIn(ring, width);
  let [coreA, wordA, countA, squareA] = [0, 0, 0, 0];
  let [coreB, wordB, countB, squareB] = [0, 0, 0, 0];
  for (let k = 0; k < squares.length; k++) {
    if (!inside) {
      const [u, v] = [x + offsets[2 * k]!, y + offsets[2 * k + 1]!];
      if (u < 0 || v < 0 || u >= width || v >= height) continue;
    }
    const i = here + places[k]!;
    const core = cores[i]!;
    if (core === 0) continue;
    // One read of the point's four bytes, red in the lowest.
    const word = words[i]!;
    if (core === coreA && word === wordA) countA++;
    else if (core === coreB && word === wordB) countB++;
    else if (countA === 0) {
      coreA = core;
      wordA = word;
      countA = 1;
      squareA = squares[k]!;
    } else {
      // The oldest goes to the sums, so that labels stay in the order of their nearest core.
      if (countB !== 0) {
        addCores(s, coreA, wordA, countA, squareA);
        coreA = coreB;
        wordA = wordB;
        countA = countB;
        squareA = squareB;
      }
      coreB = core;
      wordB = word;
      countB = 1;
      squareB = squares[k]!;
    }
  }
  if (countA !== 0) addCores(s, coreA, wordA, countA, squareA);
  if (countB !== 0) addCores(s, coreB, wordB, countB, squareB);
}

/** The labels gathered, in the order of their nearest core, with the mean colour they have here; all but `without`. */
function candidates(s: EdgeSolver, without: number): void {
  const { chroma } = s.exactness;
  s.mixer.count = 0;
  for (let k = 0; k < s.seenCount; k++) {
    if (s.seen[k] === without) continue;
    const at = s.seen[k]! * 5;
    const n = s.sums[at + 4]!;
    const grey = lightness(s.sums[at]!, s.sums[at + 1]!, s.sums[at + 2]!) / n;
    addCandidate(
      s.mixer,
      s.seen[k]!,
      (Math.sqrt(s.nearest[k]!) - 1) * PER_POINT,
      towardsGrey(s.sums[at]! / n, grey, chroma),
      towardsGrey(s.sums[at + 1]! / n, grey, chroma),
      towardsGrey(s.sums[at + 2]! / n, grey, chroma),
      s.sums[at + 3]! / n,
    );
  }
  // A point that light shines through is partly bare, though no bare point be near: gaps are thin.
  if (s.point[3]! < SEE_THROUGH && without !== 0) addLabel(s.mixer, s.labels, 0, PER_POINT);
}

/** Adds the labels that points about (x, y) come near without being cores, all but `without`. */
function nearLabels(s: EdgeSolver, x: number, y: number, without: number): void {
  const { width, height } = s.picture;
  const { offsets } = NEAR_RING;
  for (let k = 0; k < offsets.length; k += 2) {
    const u = x + offsets[k]!;
    const v = y + offsets[k + 1]!;
    if (u < 0 || v < 0 || u >= width || v >= height) continue;
    const code = s.codes[v * width + u]!;
    if (!(code & FAR) && (code & LABEL) !== without) addLabel(s.mixer, s.labels, code & LABEL, 0);
  }
}

/** The point's colour times alpha on the solver's curve, and alpha, into `s.point`. */
function readPoint(s: EdgeSolver, i: number): void {
  const { data } = s.picture;
  const alpha = data[i * 4 + 3]!;
  for (let c = 0; c < 3; c++) s.point[c] = (s.curve[data[i * 4 + c]!]! * alpha) / 255;
  s.point[3] = alpha;
  const grey = lightness(s.point[0]!, s.point[1]!, s.point[2]!);
  for (let c = 0; c < 3; c++) s.point[c] = towardsGrey(s.point[c]!, grey, s.exactness.chroma);
}

const solvePoint = (s: EdgeSolver): void =>
  solveMix(s.mixer, s.point[0]!, s.point[1]!, s.point[2]!, s.point[3]!);

function forget(s: EdgeSolver): void {
  const { sums, seen, seenCount } = s;
  for (let n = 0; n < seenCount; n++) {
    const at = seen[n]! * 5;
    for (let c = at; c < at + 5; c++) sums[c] = 0;
  }
  s.seenCount = 0;
}

/**
 * Lines one or two points wide have no core by their neighbours. A point that comes near a label becomes a core of it when no mix of
 * the other labels about it explains its colour: soft edges are explained, thin lines are not. Returns the cores with these; `soft`
 * names the points without a sure core.
 */
export function withThinCores(s: EdgeSolver, soft: Int32Array, space: Workspace): Uint8Array {
  const { width } = s.picture;
  const all = space.bytes('thin cores', s.cores.length);
  all.set(s.cores);
  const added = space.words('likely cores', soft.length);
  let addedCount = 0;
  let row = 0;
  let y = 0;
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    for (; i >= row + width; row += width) y++;
    const code = s.codes[i]!;
    if (code & FAR) continue;
    const label = code & LABEL;
    const x = i - row;
    if (!(code & TIGHT) && isBesideOwnCore(s, x, y, label | SURE)) continue;
    readPoint(s, i);
    gather(s, x, y, NEAR_RING);
    candidates(s, label);
    nearLabels(s, x, y, label);
    solvePoint(s);
    if (code & TIGHT) {
      if (s.mixer.cost > s.exactness.tightAlone) all[i] = label | SURE;
    } else {
      const enough = s.exactness.looseAlone + LOOSE_SLACK * ownDistance(s, label);
      if (s.mixer.cost > enough) {
        // What is near is in the sums already; now what is farther off, and cores alone.
        gather(s, x, y, WIDE_RING);
        candidates(s, label);
        solvePoint(s);
        if (s.mixer.cost > enough) {
          if (s.cores[i] === 0) added[addedCount++] = i;
          all[i] = label | LIKELY;
        }
      }
    }
    forget(s);
  }
  return withoutExplained(s, all, added.subarray(0, addedCount), space);
}

/** `all` without those of the likely cores `added` to the solver's own that the cores added with them do explain. */
function withoutExplained(s: EdgeSolver, all: Uint8Array, added: Int32Array, space: Workspace): Uint8Array {
  if (added.length === 0) return all;
  const { width } = s.picture;
  const before = s.cores;
  const kept = space.bytes('kept cores', all.length);
  kept.set(all);
  s.cores = all;
  for (let k = 0; k < added.length; k++) {
    const i = added[k]!;
    const label = all[i]! & LABEL;
    const x = i % width;
    const cost = explainWithout(s, x, (i - x) / width, label, true);
    if (cost <= s.exactness.looseAlone + LOOSE_SLACK * ownDistance(s, label)) kept[i] = 0;
  }
  s.cores = before;
  return kept;
}

/** Whether one of the eight about (x, y) is that very core: then the point is the rim of an area, not a thin line. */
function isBesideOwnCore({ cores, picture }: EdgeSolver, x: number, y: number, core: number): boolean {
  const { width, height } = picture;
  const left = x > 0 ? -1 : 0;
  const right = x + 1 < width ? 1 : 0;
  for (let v = y > 0 ? y - 1 : y; v <= y + 1 && v < height; v++) {
    const i = v * width + x;
    if (cores[i + left] === core || cores[i] === core || cores[i + right] === core) return true;
  }
  return false;
}

/** Encoded levels between the point being solved and a label's colour. */
function ownDistance(s: EdgeSolver, label: number): number {
  let sum = 0;
  for (let c = 0; c < 4; c++) {
    const off = s.point[c]! - s.labels.colour[label * 4 + c]!;
    sum += off * off;
  }
  return Math.sqrt(sum);
}

/** What the colour of (x, y) costs without `label`: the labels of cores near, or else (or `wide`) farther off, explain it that well. */
export function explainWithout(s: EdgeSolver, x: number, y: number, label: number, wide = false): number {
  readPoint(s, y * s.picture.width + x);
  gather(s, x, y, NEAR_RING);
  candidates(s, label);
  if (wide || s.mixer.count === 0) {
    gather(s, x, y, WIDE_RING);
    candidates(s, label);
  }
  solvePoint(s);
  forget(s);
  return s.mixer.cost;
}

/** Solves the soft point (x, y). */
export function solveEdge(s: EdgeSolver, x: number, y: number): void {
  const i = y * s.picture.width + x;
  const code = s.codes[i]!;
  readPoint(s, i);
  gather(s, x, y, NEAR_RING);
  candidates(s, -1);
  solvePoint(s);
  // Two labels close by are what meets here, however well they explain it, or else bare does too; only a lone one asks for a
  // wider look at inks.
  if (s.mixer.count < 2 && s.mixer.cost > s.exactness.good) {
    gather(s, x, y, WIDE_RING);
    candidates(s, -1);
    if (!(code & FAR)) addLabel(s.mixer, s.labels, code & LABEL, s.exactness.ownPrice);
    if (s.mixer.count === 0) settle(s.mixer, code & LABEL);
    else {
      solvePoint(s);
      if (s.mixer.cost > s.exactness.unexplained) hairline(s);
    }
  } else if (s.mixer.cost > s.exactness.unexplained) {
    const near = s.seenCount;
    gather(s, x, y, WIDE_RING);
    for (let k = near; k < s.seenCount; k++)
      if (s.labels.plane[s.seen[k]!] === 0) addLabel(s.mixer, s.labels, s.seen[k]!, s.exactness.ownPrice);
    solvePoint(s);
  }
  forget(s);
}

function settle(m: Mixer, label: number): void {
  m.parts = 1;
  m.partLabel[0] = label;
  m.share[0] = 1;
}

/** A line thinner than a point on one flat colour: the ink with which that colour best mixes to the point's. */
function hairline(s: EdgeSolver): void {
  const { mixer } = s;
  const ground = mixer.label[0]!;
  let best = -1;
  let least = s.exactness.unexplained;
  for (let label = 0; label < s.labels.count; label++) {
    if (label === ground) continue;
    mixer.count = 1;
    addLabel(mixer, s.labels, label, s.exactness.ownPrice);
    solvePoint(s);
    const share = mixer.parts === 2 ? mixer.share[1]! : mixer.partLabel[0] === label ? 1 : 0;
    if (share >= HAIRLINE_SHARE && mixer.cost < least) {
      least = mixer.cost;
      best = label;
    }
  }
  mixer.count = 1;
  if (best >= 0 && least <= HAIRLINE_COST + 10) addLabel(mixer, s.labels, best, s.exactness.ownPrice);
  solvePoint(s);
}
