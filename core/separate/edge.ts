import type { Picture } from '../raster/index.ts';
import { LIKELY, SURE } from './cores.ts';
import { FAR, LABEL, type Labels, MOST_LABELS } from './labels.ts';
import { addCandidate, addLabel, type Mixer, newMixer, solveMix } from './mix.ts';

/** Points about a soft point in which pure labels are looked for first, and then if those leave too much unexplained. */
const NEAR = 2;
const WIDE = 5;
/** Encoded levels: an explanation this cheap is taken at once. */
const GOOD = 8;
/** Encoded levels: beyond this a lone neighbour explains nothing, and a hairline of an ink without pure points is tried. */
const UNEXPLAINED = 30;
const HAIRLINE_COST = 12;
/** Share of an ink below which a hairline is not made of it: a seam between two shapes lets a quarter shine through. */
const HAIRLINE_SHARE = 0.35;
/** Weight of a likely core in the local colour of its label beside a sure one. */
const LIKELY_WEIGHT = 1 / 64;

/** Offsets within `from` < max(|dx|, |dy|) ≤ `to`, the nearest first: dx and dy one after the other. */
function ring(from: number, to: number): Int32Array {
  const all: [number, number][] = [];
  for (let dy = -to; dy <= to; dy++)
    for (let dx = -to; dx <= to; dx++) if (Math.max(Math.abs(dx), Math.abs(dy)) > from) all.push([dx, dy]);
  all.sort((a, b) => a[0] ** 2 + a[1] ** 2 - (b[0] ** 2 + b[1] ** 2));
  return Int32Array.from(all.flat());
}
const NEAR_RING = ring(0, NEAR);
const WIDE_RING = ring(NEAR, WIDE);

/** Everything needed to solve the soft points of one window; the answer stands in `mixer`. */
export interface EdgeSolver {
  readonly picture: Picture;
  readonly codes: Uint8Array;
  readonly cores: Uint8Array;
  readonly labels: Labels;
  readonly mixer: Mixer;
  /** Value of each byte in the space the mixing is undone in; alpha is linear anyway. */
  readonly curve: Float64Array;
  /** Sums over the cores seen about the point, by label: r, g, b, alpha, weight. */
  readonly sums: Float64Array;
  readonly seen: Int32Array;
  seenCount: number;
}

export function newEdgeSolver(
  picture: Picture,
  codes: Uint8Array,
  cores: Uint8Array,
  labels: Labels,
  curve: Float64Array | null,
): EdgeSolver {
  const values = curve ?? Float64Array.from({ length: 256 }, (_, i) => i);
  const bent = labels.colour.map((v, i) => (i % 4 === 3 ? v : values[v]!));
  return {
    picture,
    codes,
    cores,
    labels: { ...labels, colour: bent },
    mixer: newMixer(),
    curve: values,
    sums: new Float64Array(MOST_LABELS * 5),
    seen: new Int32Array(MOST_LABELS),
    seenCount: 0,
  };
}

/** Adds the cores of a ring of offsets about (x, y) to the sums of their labels. */
function gather(s: EdgeSolver, x: number, y: number, offsets: Int32Array): void {
  const { width, height, data } = s.picture;
  for (let k = 0; k < offsets.length; k += 2) {
    const u = x + offsets[k]!;
    const v = y + offsets[k + 1]!;
    if (u < 0 || v < 0 || u >= width || v >= height) continue;
    const i = v * width + u;
    const core = s.cores[i]!;
    if (core === 0) continue;
    const label = core & LABEL;
    const at = label * 5;
    const weight = core & SURE ? 1 : core & LIKELY ? LIKELY_WEIGHT : 0;
    if (s.sums[at + 4] === 0) s.seen[s.seenCount++] = label;
    const alpha = data[i * 4 + 3]!;
    const w = (weight * alpha) / 255;
    s.sums[at]! += w * s.curve[data[i * 4]!]!;
    s.sums[at + 1]! += w * s.curve[data[i * 4 + 1]!]!;
    s.sums[at + 2]! += w * s.curve[data[i * 4 + 2]!]!;
    s.sums[at + 3]! += weight * alpha;
    s.sums[at + 4]! += weight;
  }
}

/** The labels gathered, in the order of their nearest core, with the mean colour they have here. */
function candidates(s: EdgeSolver): void {
  s.mixer.count = 0;
  for (let k = 0; k < s.seenCount; k++) {
    const at = s.seen[k]! * 5;
    const n = s.sums[at + 4]!;
    addCandidate(
      s.mixer,
      s.seen[k]!,
      false,
      s.sums[at]! / n,
      s.sums[at + 1]! / n,
      s.sums[at + 2]! / n,
      s.sums[at + 3]! / n,
    );
  }
}

/** Labels that points close by are near to without being pure: thin lines have nothing else. */
function weakCandidates(s: EdgeSolver, x: number, y: number): void {
  const { width, height } = s.picture;
  const own = s.codes[y * width + x]!;
  if (!(own & FAR)) addLabel(s.mixer, s.labels, own & LABEL);
  for (let k = 0; k < NEAR_RING.length; k += 2) {
    const u = x + NEAR_RING[k]!;
    const v = y + NEAR_RING[k + 1]!;
    if (u < 0 || v < 0 || u >= width || v >= height) continue;
    const code = s.codes[v * width + u]!;
    if (!(code & FAR)) addLabel(s.mixer, s.labels, code & LABEL);
  }
}

/** Solves the soft point (x, y). */
export function solveEdge(s: EdgeSolver, x: number, y: number): void {
  const { width, data } = s.picture;
  const i = y * width + x;
  const alpha = data[i * 4 + 3]!;
  const k = alpha / 255;
  const r = s.curve[data[i * 4]!]! * k;
  const g = s.curve[data[i * 4 + 1]!]! * k;
  const b = s.curve[data[i * 4 + 2]!]! * k;
  s.seenCount = 0;
  gather(s, x, y, NEAR_RING);
  candidates(s);
  solveMix(s.mixer, r, g, b, alpha);
  if (s.mixer.cost > GOOD) {
    gather(s, x, y, WIDE_RING);
    candidates(s);
    const pure = s.mixer.count;
    weakCandidates(s, x, y);
    if (s.mixer.count === 0) settle(s.mixer, s.codes[i]! & LABEL);
    else {
      solveMix(s.mixer, r, g, b, alpha);
      if (s.mixer.cost > UNEXPLAINED && pure === 1 && s.mixer.count === 1) hairline(s, r, g, b, alpha);
    }
  }
  for (let n = 0; n < s.seenCount; n++) s.sums.fill(0, s.seen[n]! * 5, s.seen[n]! * 5 + 5);
}

function settle(m: Mixer, label: number): void {
  m.parts = 1;
  m.partLabel[0] = label;
  m.share[0] = 1;
}

/** A line thinner than a point on one flat colour: the ink with which that colour best mixes to the point's. */
function hairline(s: EdgeSolver, r: number, g: number, b: number, alpha: number): void {
  const { mixer } = s;
  const ground = mixer.label[0]!;
  let best = -1;
  let least = UNEXPLAINED;
  for (let label = 0; label < s.labels.count; label++) {
    if (label === ground) continue;
    mixer.count = 1;
    addLabel(mixer, s.labels, label);
    solveMix(mixer, r, g, b, alpha);
    const share = mixer.parts === 2 ? mixer.share[1]! : mixer.partLabel[0] === label ? 1 : 0;
    if (share >= HAIRLINE_SHARE && mixer.cost < least) {
      least = mixer.cost;
      best = label;
    }
  }
  mixer.count = 1;
  if (best >= 0 && least <= HAIRLINE_COST + 10) addLabel(mixer, s.labels, best);
  solveMix(mixer, r, g, b, alpha);
}
