import type { Labels } from './labels.ts';

/** Labels considered for one point; more meet nowhere in print. */
const MOST_CANDIDATES = 8;

/**
 * Costs, in encoded levels, on top of what an explanation leaves unexplained: simpler ones win unless the colour says
 * otherwise by more than rounding. Each label adds its own price: more the farther its nearest pure point lies.
 */
const PAIR = 2;
const TRIPLE = 5;

/** What a point may be a mix of, and the best mix found. Reused from point to point. */
export interface Mixer {
  count: number;
  readonly label: Int32Array;
  /** What using the label costs, encoded levels. */
  readonly price: Float64Array;
  /** Four a candidate: colour times alpha, and alpha. */
  readonly colour: Float64Array;
  /** The best explanation: up to three labels, their shares (sum 1), and its cost. */
  parts: number;
  readonly partLabel: Int32Array;
  readonly share: Float64Array;
  cost: number;
}

export const newMixer = (): Mixer => ({
  count: 0,
  label: new Int32Array(MOST_CANDIDATES),
  price: new Float64Array(MOST_CANDIDATES),
  colour: new Float64Array(MOST_CANDIDATES * 4),
  parts: 0,
  partLabel: new Int32Array(3),
  share: new Float64Array(3),
  cost: Number.POSITIVE_INFINITY,
});

/** Adds a label seen near the point with the colour it has there; ignored when the mixer is full or has it. */
export function addCandidate(
  m: Mixer,
  label: number,
  price: number,
  r: number,
  g: number,
  b: number,
  a: number,
): void {
  if (m.count === MOST_CANDIDATES) return;
  for (let i = 0; i < m.count; i++) if (m.label[i] === label) return;
  const o = m.count * 4;
  m.label[m.count] = label;
  m.price[m.count] = price;
  m.colour[o] = r;
  m.colour[o + 1] = g;
  m.colour[o + 2] = b;
  m.colour[o + 3] = a;
  m.count++;
}

/** Adds a label with its own colour. */
export const addLabel = (m: Mixer, labels: Labels, label: number, price: number): void =>
  addCandidate(
    m,
    label,
    price,
    labels.colour[label * 4]!,
    labels.colour[label * 4 + 1]!,
    labels.colour[label * 4 + 2]!,
    labels.colour[label * 4 + 3]!,
  );

/** Explains the colour (r, g, b times alpha, alpha) by one, two or three candidates; the cheapest explanation is kept. */
export function solveMix(m: Mixer, r: number, g: number, b: number, alpha: number): void {
  m.cost = Number.POSITIVE_INFINITY;
  m.parts = 0;
  const c = m.colour;
  for (let i = 0; i < m.count; i++) {
    const o = i * 4;
    const d0 = r - c[o]!;
    const d1 = g - c[o + 1]!;
    const d2 = b - c[o + 2]!;
    const d3 = alpha - c[o + 3]!;
    const d = Math.sqrt(d0 * d0 + d1 * d1 + d2 * d2 + d3 * d3);
    const cost = d + m.price[i]!;
    if (cost < m.cost) {
      m.cost = cost;
      m.parts = 1;
      m.partLabel[0] = m.label[i]!;
      m.share[0] = 1;
    }
  }
  for (let i = 0; i < m.count; i++)
    for (let j = i + 1; j < m.count; j++) {
      const dear = PAIR + m.price[i]! + m.price[j]!;
      if (dear < m.cost) tryPair(m, i, j, dear, r, g, b, alpha);
    }
  if (m.count < 3 || m.cost <= TRIPLE) return;
  for (let i = 0; i < m.count; i++)
    for (let j = i + 1; j < m.count; j++)
      for (let k = j + 1; k < m.count; k++) {
        const dear = TRIPLE + m.price[i]! + m.price[j]! + m.price[k]!;
        if (dear < m.cost) tryTriple(m, i, j, k, dear, r, g, b, alpha);
      }
}

/** Projection on the segment between two candidates. */
function tryPair(
  m: Mixer,
  i: number,
  j: number,
  dear: number,
  r: number,
  g: number,
  b: number,
  alpha: number,
) {
  const c = m.colour;
  const o = i * 4;
  const q = j * 4;
  const u0 = c[q]! - c[o]!;
  const u1 = c[q + 1]! - c[o + 1]!;
  const u2 = c[q + 2]! - c[o + 2]!;
  const u3 = c[q + 3]! - c[o + 3]!;
  const p0 = r - c[o]!;
  const p1 = g - c[o + 1]!;
  const p2 = b - c[o + 2]!;
  const p3 = alpha - c[o + 3]!;
  const uu = u0 * u0 + u1 * u1 + u2 * u2 + u3 * u3;
  if (uu < 1) return;
  const t = (p0 * u0 + p1 * u1 + p2 * u2 + p3 * u3) / uu;
  if (t <= 0 || t >= 1) return; // one of the two alone is as good
  const e0 = p0 - t * u0;
  const e1 = p1 - t * u1;
  const e2 = p2 - t * u2;
  const e3 = p3 - t * u3;
  const cost = dear + Math.sqrt(e0 * e0 + e1 * e1 + e2 * e2 + e3 * e3);
  if (cost >= m.cost) return;
  m.cost = cost;
  m.parts = 2;
  m.partLabel[0] = m.label[i]!;
  m.partLabel[1] = m.label[j]!;
  m.share[0] = 1 - t;
  m.share[1] = t;
}

/** Projection on the triangle of three candidates; outside of it a pair is as good. */
function tryTriple(
  m: Mixer,
  i: number,
  j: number,
  k: number,
  dear: number,
  r: number,
  g: number,
  b: number,
  alpha: number,
) {
  const c = m.colour;
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let pu = 0;
  let pv = 0;
  let pp = 0;
  for (let h = 0; h < 4; h++) {
    const at = c[i * 4 + h]!;
    const u = c[j * 4 + h]! - at;
    const v = c[k * 4 + h]! - at;
    const p = (h === 0 ? r : h === 1 ? g : h === 2 ? b : alpha) - at;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    pu += p * u;
    pv += p * v;
    pp += p * p;
  }
  const det = uu * vv - uv * uv;
  if (det < 1e-6 * uu * vv) return;
  const s = (pu * vv - pv * uv) / det;
  const t = (pv * uu - pu * uv) / det;
  if (s <= 0 || t <= 0 || s + t >= 1) return;
  const cost = dear + Math.sqrt(Math.max(0, pp - s * pu - t * pv));
  if (cost >= m.cost) return;
  m.cost = cost;
  m.parts = 3;
  m.partLabel[0] = m.label[i]!;
  m.partLabel[1] = m.label[j]!;
  m.partLabel[2] = m.label[k]!;
  m.share[0] = 1 - s - t;
  m.share[1] = s;
  m.share[2] = t;
}
