// The code of each colour: the fast twin of core/separate/labels.ts, which states the scheme and whose constants these are.
import { FAR, TIGHT } from './codes';
import { answerRun } from './lookUp';

const TIGHT_LEVELS: f64 = 3;
const NEAR_LEVELS: f64 = 36;
const NEAR_SHARE: f64 = 0.45;

/** Slots of the memo: see ../lookUpPlain.ts. */
const SLOTS: i32 = 1 << 16;

let labels: i32 = 0;
/** By label four numbers, red, green and blue times alpha, and alpha; its plane; three numbers, OKLab. By byte its light. */
let colours: usize = 0;
let planes: usize = 0;
let oklab: usize = 0;
let light: usize = 0;
let keys: usize = 0;
let held: usize = 0;

/** Reads the labels; `memo` is room for five bytes a slot. */
export function beginCodes(
  count: i32,
  colour: usize,
  plane: usize,
  lab: usize,
  lights: usize,
  memo: usize,
): void {
  labels = count;
  colours = colour;
  planes = plane;
  oklab = lab;
  light = lights;
  keys = memo;
  held = memo + 4 * SLOTS;
  // An empty slot holds the key 0, which stands in slot 0 and nowhere else.
  memory.fill(memo, 0, 5 * SLOTS);
  store<u8>(held, <u8>codeOf(0));
}

// @ts-expect-error: decorator
@inline
function f64At(list: usize, i: i32): f64 {
  return load<f64>(list + (<usize>i << 3));
}

/** Two colours of one ink need not be told apart. */
// @ts-expect-error: decorator
@inline
function sameInk(a: i32, b: i32): bool {
  const plane = load<u8>(planes + <usize>a);
  return plane == load<u8>(planes + <usize>b) && plane != 0;
}

function codeOf(word: i32): i32 {
  const alpha = <f64>(<u32>word >>> 24);
  if (alpha == 0) return TIGHT;
  const k = alpha / 255;
  const p0 = <f64>(word & 255) * k;
  const p1 = <f64>((word >>> 8) & 255) * k;
  const p2 = <f64>((word >>> 16) & 255) * k;
  let best = 0;
  let least: f64 = Infinity;
  let second: f64 = Infinity;
  for (let l = 0, o = 0; l < labels; l++, o += 4) {
    const d0 = p0 - f64At(colours, o);
    const d1 = p1 - f64At(colours, o + 1);
    const d2 = p2 - f64At(colours, o + 2);
    const d3 = alpha - f64At(colours, o + 3);
    const d = d0 * d0 + d1 * d1 + d2 * d2 + d3 * d3;
    if (d < least) {
      if (!sameInk(l, best)) second = least;
      least = d;
      best = l;
    } else if (d < second && !sameInk(l, best)) second = d;
  }
  const o = best * 4;
  const off = max(
    max(abs(p0 - f64At(colours, o)), abs(p1 - f64At(colours, o + 1))),
    max(abs(p2 - f64At(colours, o + 2)), abs(alpha - f64At(colours, o + 3))),
  );
  const clear = least <= NEAR_SHARE * NEAR_SHARE * second;
  if (off <= TIGHT_LEVELS && clear) return best | TIGHT;
  if (least <= NEAR_LEVELS * NEAR_LEVELS && clear) return best;
  if (least == 0) return best | TIGHT;
  return nearestByEye(word, alpha) | FAR;
}

function nearestByEye(word: i32, alpha: f64): i32 {
  if (alpha < 128 || labels == 1) return 0;
  const r = f64At(light, word & 255);
  const g = f64At(light, (word >>> 8) & 255);
  const b = f64At(light, (word >>> 16) & 255);
  // As core/colour/oklab.ts has it.
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  const pl = 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s;
  const pa = 1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s;
  const pb = 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s;
  let best = 1;
  let least: f64 = Infinity;
  for (let q = 1; q < labels; q++) {
    const dl = pl - f64At(oklab, 3 * q);
    const da = pa - f64At(oklab, 3 * q + 1);
    const db = pb - f64At(oklab, 3 * q + 2);
    const d = dl * dl + da * da + db * db;
    if (d < least) {
      least = d;
      best = q;
    }
  }
  return best;
}

/** The codes of `count` words. Stretches of one word are answered as one; 16 bytes beyond `output` may be written, beyond `input` read. */
export function codesTo(input: usize, count: i32, output: usize): void {
  let i = 0;
  while (i < count) {
    const word = load<i32>(input + (<usize>i << 2));
    const slot = <usize>(<u32>(word * <i32>0x9e3779b1) >>> 16);
    if (load<i32>(keys + (slot << 2)) != word) {
      store<i32>(keys + (slot << 2), word);
      store<u8>(held + slot, <u8>codeOf(word));
    }
    const answer = load<u8>(held + slot);
    i = answerRun(input, i, count, word, answer, output);
  }
}
