// The soft points of art, solved as mixes of the pure ones about them: the fast twin of core/separate/edge.ts and mix.ts, whose
// comments state the scheme and whose constants these are. Sums are made in the same order, so that all bits are equal.

import { FAR, LABEL, LIKELY, SURE, TIGHT } from './codes';
import { at as i32At } from './lists';

const SEE_THROUGH: f64 = 250;
const PER_POINT: f64 = 1.5;
const LOOSE_SLACK: f64 = 2;
const HAIRLINE_COST: f64 = 12;
const HAIRLINE_SHARE: f64 = 0.35;
const MOST_CANDIDATES: i32 = 8;
const PAIR: f64 = 2;
const TRIPLE: f64 = 5;

// What a call works on: set from its table at the start of each.
let words: usize = 0;
let codes: usize = 0;
let cores: usize = 0;
let width: i32 = 0;
let rows: i32 = 0;
let colours: usize = 0;
let planes: usize = 0;
let labelCount: i32 = 0;
let curve: usize = 0;
let weights: usize = 0;
let nearRing: usize = 0;
let nearCount: i32 = 0;
let nearReach: i32 = 0;
let wideRing: usize = 0;
let wideCount: i32 = 0;
let wideReach: i32 = 0;
let good: f64 = 0;
let ownPrice: f64 = 0;
let tightAlone: f64 = 0;
let looseAlone: f64 = 0;
let chroma: f64 = 0;
let unexplained: f64 = 0;
let sums: usize = 0;
/** The band's first point in the whole picture. */
let base: i32 = 0;
let seen: usize = 0;
let nearest: usize = 0;
let mixLabel: usize = 0;
let mixPrice: usize = 0;
let mixColour: usize = 0;
let partLabel: usize = 0;
let partShare: usize = 0;
/** Of the near ring the places as they lie in the band and their squares, two words each, where no edge of it is near. */
let nearPlaces: usize = 0;
/** By label four sums and their weight, in 64ths. */
let sixtyFourths: usize = 0;
let met: usize = 0;
/** Whether bytes stand for themselves, so that sums of opaque points are exact. */
let plainBytes: bool = false;

let seenCount: i32 = 0;
let mixCount: i32 = 0;
let parts: i32 = 0;
let cost: f64 = 0;
let point0: f64 = 0;
let point1: f64 = 0;
let point2: f64 = 0;
let point3: f64 = 0;

// @ts-expect-error: decorator
@inline
function f64At(list: usize, i: i32): f64 {
  return load<f64>(list + (<usize>i << 3));
}

// @ts-expect-error: decorator
@inline
function put(list: usize, i: i32, value: f64): void {
  store<f64>(list + (<usize>i << 3), value);
}

// @ts-expect-error: decorator
@inline
function lightness(r: f64, g: f64, b: f64): f64 {
  return 0.299 * r + 0.587 * g + 0.114 * b;
}

// @ts-expect-error: decorator
@inline
function towardsGrey(v: f64, grey: f64): f64 {
  return grey + (v - grey) * chroma;
}

function addCores(core: i32, word: i32, count: i32, square: i32): void {
  const label = core & LABEL;
  const at = sums + <usize>(label * 40);
  const before = load<f64>(at, 32);
  if (before == 0) {
    put(nearest, seenCount, <f64>square);
    store<i32>(seen + (<usize>seenCount << 2), label);
    seenCount++;
  }
  const alpha = <i32>(<u32>word >>> 24);
  const sure = (core >>> 7) & 1;
  const weight = (sure != 0 ? 1 : 1.0 / 64) * <f64>count;
  const w = f64At(weights, (sure << 8) | alpha) * <f64>count;
  store<f64>(at, load<f64>(at) + w * f64At(curve, word & 255));
  store<f64>(at, load<f64>(at, 8) + w * f64At(curve, (word >>> 8) & 255), 8);
  store<f64>(at, load<f64>(at, 16) + w * f64At(curve, (word >>> 16) & 255), 16);
  store<f64>(at, load<f64>(at, 24) + weight * <f64>alpha, 24);
  store<f64>(at, before + weight, 32);
}

/** The near ring about (x, y). */
function gatherNear(x: i32, y: i32): void {
  const inside = x >= nearReach && y >= nearReach && x + nearReach < width && y + nearReach < rows;
  if (!inside || !plainBytes || !gatherExactly(y * width + x)) gather(x, y, nearRing, nearCount, nearReach);
}

/**
 * The same where the ring lies inside and all cores in it are opaque or nothing: their sums are whole 64ths whatever the order, so that no
 * two cores need be compared. Returns false, having changed nothing, where one is neither.
 */
function gatherExactly(here: i32): bool {
  const core0 = cores + <usize>here;
  const word0 = words + (<usize>here << 2);
  let some: u64 = 0;
  let odd: u32 = 0;
  let count = 0;
  const end = nearPlaces + (<usize>nearCount << 3);
  for (let p = nearPlaces; p < end; p += 8) {
    const off = load<i32>(p);
    const core = <i32>load<u8>(core0 + <usize>off);
    const word = load<u32>(word0 + (<usize>off << 2));
    // 64 for sure ones, 1 for likely ones, 0 for none.
    const weight = ((core >> 7) << 6) | ((core >> 6) & 1);
    const label = core & LABEL;
    const bit = <u64>(weight != 0) << <u64>label;
    const alpha = word >>> 24;
    odd |= weight != 0 ? (alpha + 1) & 254 : 0;
    const sum = sixtyFourths + <usize>(label << 5);
    if ((bit & ~some) != 0) {
      some |= bit;
      v128.store(sum, i32x4.splat(0));
      store<i32>(sum, 0, 16);
      store<i32>(met + (<usize>count << 3), label);
      store<i32>(met + (<usize>count << 3), load<i32>(p, 4), 4);
      count++;
    }
    const bytes = i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(i32x4.splat(word)));
    const times = i32x4.splat(weight & -(<i32>(alpha >> 7)));
    v128.store(sum, i32x4.add(v128.load(sum), i32x4.mul(bytes, times)));
    store<i32>(sum, load<i32>(sum, 16) + weight, 16);
  }
  if (odd != 0) return false;
  for (let k = 0; k < count; k++) {
    const label = load<i32>(met + (<usize>k << 3));
    put(nearest, seenCount, <f64>load<i32>(met + (<usize>k << 3), 4));
    store<i32>(seen + (<usize>seenCount << 2), label);
    seenCount++;
    const from = sixtyFourths + <usize>(label << 5);
    const at = sums + <usize>(label * 40);
    store<f64>(at, <f64>load<i32>(from) / 64);
    store<f64>(at, <f64>load<i32>(from, 4) / 64, 8);
    store<f64>(at, <f64>load<i32>(from, 8) / 64, 16);
    store<f64>(at, <f64>load<i32>(from, 12) / 64, 24);
    store<f64>(at, <f64>load<i32>(from, 16) / 64, 32);
  }
  return true;
}

/** `ring`: dx, dy, dx² + dy² of each of its `count` places. */
function gather(x: i32, y: i32, ring: usize, count: i32, reach: i32): void {
  const inside = x >= reach && y >= reach && x + reach < width && y + reach < rows;
  const here = y * width + x;
  let coreA = 0;
  let wordA = 0;
  let countA = 0;
  let squareA = 0;
  let coreB = 0;
  let wordB = 0;
  let countB = 0;
  let squareB = 0;
  const end = ring + <usize>(count * 12);
  for (let p = ring; p < end; p += 12) {
    const dx = load<i32>(p);
    const dy = load<i32>(p, 4);
    if (!inside) {
      const u = x + dx;
      const v = y + dy;
      if (u < 0 || v < 0 || u >= width || v >= rows) continue;
    }
    const i = <usize>(here + dy * width + dx);
    const core = <i32>load<u8>(cores + i);
    if (core == 0) continue;
    const word = load<i32>(words + (i << 2));
    if (core == coreA && word == wordA) countA++;
    else if (core == coreB && word == wordB) countB++;
    else if (countA == 0) {
      coreA = core;
      wordA = word;
      countA = 1;
      squareA = load<i32>(p, 8);
    } else {
      if (countB != 0) {
        addCores(coreA, wordA, countA, squareA);
        coreA = coreB;
        wordA = wordB;
        countA = countB;
        squareA = squareB;
      }
      coreB = core;
      wordB = word;
      countB = 1;
      squareB = load<i32>(p, 8);
    }
  }
  if (countA != 0) addCores(coreA, wordA, countA, squareA);
  if (countB != 0) addCores(coreB, wordB, countB, squareB);
}

function addCandidate(label: i32, price: f64, r: f64, g: f64, b: f64, a: f64): void {
  if (mixCount == MOST_CANDIDATES) return;
  for (let i = 0; i < mixCount; i++) if (i32At(mixLabel, i) == label) return;
  const o = mixCount * 4;
  store<i32>(mixLabel + (<usize>mixCount << 2), label);
  put(mixPrice, mixCount, price);
  put(mixColour, o, r);
  put(mixColour, o + 1, g);
  put(mixColour, o + 2, b);
  put(mixColour, o + 3, a);
  mixCount++;
}

function addLabel(label: i32, price: f64): void {
  const o = label * 4;
  addCandidate(
    label,
    price,
    f64At(colours, o),
    f64At(colours, o + 1),
    f64At(colours, o + 2),
    f64At(colours, o + 3),
  );
}

function candidates(without: i32): void {
  mixCount = 0;
  for (let k = 0; k < seenCount; k++) {
    const label = i32At(seen, k);
    if (label == without) continue;
    const at = label * 5;
    const n = f64At(sums, at + 4);
    const r = f64At(sums, at);
    const g = f64At(sums, at + 1);
    const b = f64At(sums, at + 2);
    const grey = lightness(r, g, b) / n;
    addCandidate(
      label,
      (sqrt(f64At(nearest, k)) - 1) * PER_POINT,
      towardsGrey(r / n, grey),
      towardsGrey(g / n, grey),
      towardsGrey(b / n, grey),
      f64At(sums, at + 3) / n,
    );
  }
  if (point3 < SEE_THROUGH && without != 0) addLabel(0, PER_POINT);
}

function nearLabels(x: i32, y: i32, without: i32): void {
  const end = nearRing + <usize>(nearCount * 12);
  for (let p = nearRing; p < end; p += 12) {
    const u = x + load<i32>(p);
    const v = y + load<i32>(p, 4);
    if (u < 0 || v < 0 || u >= width || v >= rows) continue;
    const code = <i32>load<u8>(codes + <usize>(v * width + u));
    if ((code & FAR) == 0 && (code & LABEL) != without) addLabel(code & LABEL, 0);
  }
}

function readPoint(i: i32): void {
  const word = load<i32>(words + (<usize>i << 2));
  const alpha = <f64>(<u32>word >>> 24);
  const r = (f64At(curve, word & 255) * alpha) / 255;
  const g = (f64At(curve, (word >>> 8) & 255) * alpha) / 255;
  const b = (f64At(curve, (word >>> 16) & 255) * alpha) / 255;
  const grey = lightness(r, g, b);
  point0 = towardsGrey(r, grey);
  point1 = towardsGrey(g, grey);
  point2 = towardsGrey(b, grey);
  point3 = alpha;
}

function forget(): void {
  for (let n = 0; n < seenCount; n++) memory.fill(sums + <usize>(i32At(seen, n) * 40), 0, 40);
  seenCount = 0;
}

function part(n: i32, candidate: i32, share: f64): void {
  store<i32>(partLabel + (<usize>n << 2), i32At(mixLabel, candidate));
  put(partShare, n, share);
}

function tryPair(i: i32, j: i32, dear: f64): void {
  const o = i * 4;
  const q = j * 4;
  const c0 = f64At(mixColour, o);
  const c1 = f64At(mixColour, o + 1);
  const c2 = f64At(mixColour, o + 2);
  const c3 = f64At(mixColour, o + 3);
  const u0 = f64At(mixColour, q) - c0;
  const u1 = f64At(mixColour, q + 1) - c1;
  const u2 = f64At(mixColour, q + 2) - c2;
  const u3 = f64At(mixColour, q + 3) - c3;
  const p0 = point0 - c0;
  const p1 = point1 - c1;
  const p2 = point2 - c2;
  const p3 = point3 - c3;
  const uu = u0 * u0 + u1 * u1 + u2 * u2 + u3 * u3;
  if (uu < 1) return;
  const t = (p0 * u0 + p1 * u1 + p2 * u2 + p3 * u3) / uu;
  if (t <= 0 || t >= 1) return;
  const e0 = p0 - t * u0;
  const e1 = p1 - t * u1;
  const e2 = p2 - t * u2;
  const e3 = p3 - t * u3;
  const found = dear + sqrt(e0 * e0 + e1 * e1 + e2 * e2 + e3 * e3);
  if (found >= cost) return;
  cost = found;
  parts = 2;
  part(0, i, 1 - t);
  part(1, j, t);
}

function tryTriple(i: i32, j: i32, k: i32, dear: f64): void {
  let uu: f64 = 0;
  let uv: f64 = 0;
  let vv: f64 = 0;
  let pu: f64 = 0;
  let pv: f64 = 0;
  let pp: f64 = 0;
  for (let h = 0; h < 4; h++) {
    const at = f64At(mixColour, i * 4 + h);
    const u = f64At(mixColour, j * 4 + h) - at;
    const v = f64At(mixColour, k * 4 + h) - at;
    const p = (h == 0 ? point0 : h == 1 ? point1 : h == 2 ? point2 : point3) - at;
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
  const found = dear + sqrt(max<f64>(0, pp - s * pu - t * pv));
  if (found >= cost) return;
  cost = found;
  parts = 3;
  part(0, i, 1 - s - t);
  part(1, j, s);
  part(2, k, t);
}

function solveMix(): void {
  cost = Infinity;
  parts = 0;
  for (let i = 0; i < mixCount; i++) {
    const o = i * 4;
    const d0 = point0 - f64At(mixColour, o);
    const d1 = point1 - f64At(mixColour, o + 1);
    const d2 = point2 - f64At(mixColour, o + 2);
    const d3 = point3 - f64At(mixColour, o + 3);
    const found = sqrt(d0 * d0 + d1 * d1 + d2 * d2 + d3 * d3) + f64At(mixPrice, i);
    if (found < cost) {
      cost = found;
      parts = 1;
      part(0, i, 1);
    }
  }
  for (let i = 0; i < mixCount; i++)
    for (let j = i + 1; j < mixCount; j++) {
      const dear = PAIR + f64At(mixPrice, i) + f64At(mixPrice, j);
      if (dear < cost) tryPair(i, j, dear);
    }
  if (mixCount < 3 || cost <= TRIPLE) return;
  for (let i = 0; i < mixCount; i++)
    for (let j = i + 1; j < mixCount; j++)
      for (let k = j + 1; k < mixCount; k++) {
        const dear = TRIPLE + f64At(mixPrice, i) + f64At(mixPrice, j) + f64At(mixPrice, k);
        if (dear < cost) tryTriple(i, j, k, dear);
      }
}

function isBesideOwnCore(x: i32, y: i32, core: i32): bool {
  for (let v = max(0, y - 1); v <= min(rows - 1, y + 1); v++)
    for (let u = max(0, x - 1); u <= min(width - 1, x + 1); u++)
      if (<i32>load<u8>(cores + <usize>(v * width + u)) == core) return true;
  return false;
}

function ownDistance(label: i32): f64 {
  const o = label * 4;
  const d0 = point0 - f64At(colours, o);
  const d1 = point1 - f64At(colours, o + 1);
  const d2 = point2 - f64At(colours, o + 2);
  const d3 = point3 - f64At(colours, o + 3);
  return sqrt(d0 * d0 + d1 * d1 + d2 * d2 + d3 * d3);
}

/** The core that the point gets as a thin line, or 0: it stays as it is. */
export function thinCore(i: i32, x: i32, y: i32): i32 {
  const code = <i32>load<u8>(codes + <usize>i);
  if ((code & FAR) != 0) return 0;
  const label = code & LABEL;
  if ((code & TIGHT) == 0 && isBesideOwnCore(x, y, label | SURE)) return 0;
  readPoint(i);
  gatherNear(x, y);
  candidates(label);
  nearLabels(x, y, label);
  solveMix();
  let core = 0;
  if ((code & TIGHT) != 0) {
    if (cost > tightAlone) core = label | SURE;
  } else {
    const enough = looseAlone + LOOSE_SLACK * ownDistance(label);
    if (cost > enough) {
      gather(x, y, wideRing, wideCount, wideReach);
      candidates(label);
      solveMix();
      if (cost > enough) core = label | LIKELY;
    }
  }
  forget();
  return core;
}

/** 1 where the other labels about a thin core explain its point after all. */
export function isExplained(i: i32, x: i32, y: i32): i32 {
  const label = <i32>load<u8>(cores + <usize>i) & LABEL;
  readPoint(i);
  gatherNear(x, y);
  gather(x, y, wideRing, wideCount, wideReach);
  candidates(label);
  solveMix();
  forget();
  return cost <= looseAlone + LOOSE_SLACK * ownDistance(label) ? 1 : 0;
}

function hairline(): void {
  const ground = i32At(mixLabel, 0);
  let best = -1;
  let least = unexplained;
  for (let label = 0; label < labelCount; label++) {
    if (label == ground) continue;
    mixCount = 1;
    addLabel(label, ownPrice);
    solveMix();
    const share = parts == 2 ? f64At(partShare, 1) : i32At(partLabel, 0) == label ? 1 : 0;
    if (share >= HAIRLINE_SHARE && cost < least) {
      least = cost;
      best = label;
    }
  }
  mixCount = 1;
  if (best >= 0 && least <= HAIRLINE_COST + 10) addLabel(best, ownPrice);
  solveMix();
}

function solveEdge(i: i32, x: i32, y: i32): void {
  const code = <i32>load<u8>(codes + <usize>i);
  readPoint(i);
  gatherNear(x, y);
  candidates(-1);
  solveMix();
  if (mixCount < 2 && cost > good) {
    gather(x, y, wideRing, wideCount, wideReach);
    candidates(-1);
    if ((code & FAR) == 0) addLabel(code & LABEL, ownPrice);
    if (mixCount == 0) {
      parts = 1;
      store<i32>(partLabel, code & LABEL);
      put(partShare, 0, 1);
    } else {
      solveMix();
      if (cost > unexplained) hairline();
    }
  } else if (cost > unexplained) {
    const near = seenCount;
    gather(x, y, wideRing, wideCount, wideReach);
    for (let k = near; k < seenCount; k++) {
      const label = i32At(seen, k);
      if (load<u8>(planes + <usize>label) == 0) addLabel(label, ownPrice);
    }
    solveMix();
  }
  forget();
}

/** The shares of the point just solved, a byte a plane, to `out`; returns the plane that has most. */
function sharesTo(out: usize, planeCount: i32): i32 {
  memory.fill(out, 0, <usize>planeCount);
  let left = 255;
  for (let p = 1; p < parts; p++) {
    const share = f64At(partShare, p) * 255;
    const whole = floor(share);
    const byte = <i32>whole + (share - whole >= 0.5 ? 1 : 0);
    const at = out + <usize>load<u8>(planes + <usize>i32At(partLabel, p));
    store<u8>(at, <u8>(<i32>load<u8>(at) + byte));
    left -= byte;
  }
  const first = out + <usize>load<u8>(planes + <usize>i32At(partLabel, 0));
  store<u8>(first, <u8>(<i32>load<u8>(first) + left));
  let most = 0;
  for (let p = 1; p < planeCount; p++)
    if (load<u8>(out + <usize>p) > load<u8>(out + <usize>most)) most = p;
  return most;
}

/** Reads the table: see `SoftTables` in ../softTables.ts, which writes it. */
export function begin(table: usize): void {
  words = <usize>i32At(table, 0);
  codes = <usize>i32At(table, 1);
  cores = <usize>i32At(table, 2);
  width = i32At(table, 3);
  rows = i32At(table, 4);
  colours = <usize>i32At(table, 5);
  planes = <usize>i32At(table, 6);
  labelCount = i32At(table, 7);
  curve = <usize>i32At(table, 8);
  weights = <usize>i32At(table, 9);
  nearRing = <usize>i32At(table, 10);
  nearCount = i32At(table, 11);
  nearReach = i32At(table, 12);
  wideRing = <usize>i32At(table, 13);
  wideCount = i32At(table, 14);
  wideReach = i32At(table, 15);
  const exactness = <usize>i32At(table, 16);
  good = f64At(exactness, 0);
  ownPrice = f64At(exactness, 1);
  tightAlone = f64At(exactness, 2);
  looseAlone = f64At(exactness, 3);
  chroma = f64At(exactness, 4);
  unexplained = f64At(exactness, 5);
  sums = <usize>i32At(table, 17);
  base = i32At(table, 18);
  seen = sums + 64 * 40;
  nearest = seen + 64 * 4;
  mixLabel = nearest + 64 * 8;
  mixPrice = mixLabel + 32;
  mixColour = mixPrice + 64;
  partLabel = mixColour + 256;
  partShare = partLabel + 16;
  nearPlaces = partShare + 48;
  met = nearPlaces + (<usize>nearCount << 3);
  sixtyFourths = met + 64 * 8;
  for (let k = 0; k < nearCount; k++) {
    const ring = nearRing + <usize>(k * 12);
    const at = nearPlaces + (<usize>k << 3);
    store<i32>(at, load<i32>(ring, 4) * width + load<i32>(ring));
    store<i32>(at, load<i32>(ring, 8), 4);
  }
  plainBytes = true;
  for (let i = 0; i < 256; i++) if (f64At(curve, i) != <f64>i) plainBytes = false;
}

/**
 * Of `count` places at `soft` that lie in the band: which get a core as a thin line, as places to `places` and as cores to `found`. Returns
 * how many.
 */
export function thinCores(table: usize, soft: usize, count: i32, places: usize, found: usize): i32 {
  begin(table);
  let n = 0;
  for (let k = 0; k < count; k++) {
    const place = i32At(soft, k);
    const i = place - base;
    const y = i / width;
    const core = thinCore(i, i - y * width, y);
    if (core == 0) continue;
    store<i32>(places + (<usize>n << 2), place);
    store<u8>(found + <usize>n, <u8>core);
    n++;
  }
  return n;
}

/** Of `count` places at `soft`, likely cores in the band: those that are explained without themselves, to `places`. Returns how many. */
export function explainedCores(table: usize, soft: usize, count: i32, places: usize): i32 {
  begin(table);
  let n = 0;
  for (let k = 0; k < count; k++) {
    const place = i32At(soft, k);
    const i = place - base;
    const y = i / width;
    if (isExplained(i, i - y * width, y) == 0) continue;
    store<i32>(places + (<usize>n << 2), place);
    n++;
  }
  return n;
}

/** Where the band lies now: its first point in the whole picture, and how many rows it has. */
export function bandAt(first: i32, count: i32): void {
  base = first;
  rows = count;
}

/**
 * To `winners` the plane of every core from row `first` of the band on, `wanted` rows; and of the `count` places at `soft` that lie there and
 * have no sure core, solved, the plane that has most. Those that several planes share go to `shared` as places and to
 * `shares` a byte a plane. Returns how many are shared.
 */
export function softShares(
  table: usize,
  soft: usize,
  count: i32,
  planeCount: i32,
  first: i32,
  wanted: i32,
  winners: usize,
  shared: usize,
  shares: usize,
): i32 {
  begin(table);
  return solveRows(soft, count, planeCount, first, wanted, winners, shared, shares);
}

/** The same in the band that was begun. */
export function solveRows(
  soft: usize,
  count: i32,
  planeCount: i32,
  first: i32,
  wanted: i32,
  winners: usize,
  shared: usize,
  shares: usize,
): i32 {
  const from = <usize>(first * width);
  planesOf(cores + from, winners, <usize>(wanted * width));
  let n = 0;
  for (let k = 0; k < count; k++) {
    const place = i32At(soft, k);
    const i = place - base;
    if ((<i32>load<u8>(cores + <usize>i) & SURE) != 0) continue;
    const y = i / width;
    solveEdge(i, i - y * width, y);
    const out = shares + <usize>(n * planeCount);
    const most = sharesTo(out, planeCount);
    store<u8>(winners + <usize>i - from, <u8>most);
    if (load<u8>(out + <usize>most) == 255) continue;
    store<i32>(shared + (<usize>n << 2), place);
    n++;
  }
  return n;
}

/** The plane of each of `count` cores. Flat stretches repeat the last eight. */
function planesOf(from: usize, to: usize, count: usize): void {
  let last: u64 = 0;
  let answer: u64 = <u64>load<u8>(planes) * 0x0101010101010101;
  let i: usize = 0;
  for (; i + 8 <= count; i += 8) {
    const eight = load<u64>(from + i);
    if (eight != last) {
      last = eight;
      answer = 0;
      for (let b: u64 = 0; b < 64; b += 8) answer |= <u64>planeOf(<i32>((eight >> b) & 255)) << b;
    }
    store<u64>(to + i, answer);
  }
  for (; i < count; i++) store<u8>(to + i, <u8>planeOf(<i32>load<u8>(from + i)));
}

// @ts-expect-error: decorator
@inline
function planeOf(core: i32): i32 {
  const label = core & LABEL;
  return label < labelCount ? <i32>load<u8>(planes + <usize>label) : 0;
}
