/** Tones of the film and what they print as, each 0 to 1. */
export interface TonePatch {
  readonly film: number;
  readonly printed: number;
}

/** What is known of a press: measured patches, or only how much its middle tone gains. */
export interface Gain {
  readonly midtone?: number | undefined;
  readonly patches?: readonly TonePatch[] | undefined;
}

/** Halvings of a search; the last is far below a level of 255. */
const HALVINGS = 24;

/**
 * The tone that a film's tone (0 to 1) prints as. From patches: a smooth curve through them that never turns back (monotone cubic,
 * F. N. Fritsch, R. E. Carlson, 1980), 0 and 1 staying themselves. From a midtone alone: dots grow by a border, so
 *   printed = film + 2 · midtone · √(film (1 − film)), at most 1
 * (J. A. S. Viggiano, “The GRL dot gain model”, TAGA 1983; the formula from memory).
 */
export function printedTone(gain: Gain): (film: number) => number {
  if (gain.patches && gain.patches.length > 0) return throughPatches(gain.patches);
  const midtone = gain.midtone ?? 0;
  return (film) => clamped(film + 2 * midtone * Math.sqrt(film * (1 - film)));
}

const clamped = (v: number) => Math.min(1, Math.max(0, v));

function throughPatches(patches: readonly TonePatch[]): (film: number) => number {
  const x = [0];
  const y = [0];
  const sorted = [...patches].sort((a, b) => a.film - b.film || a.printed - b.printed);
  for (const { film, printed } of sorted) {
    if (film <= 0 || film >= 1 || film === x.at(-1)) continue;
    x.push(film);
    // A patch that reads lighter than a thinner one before it was misread: it counts as no darker and no lighter.
    y.push(Math.max(y.at(-1)!, clamped(printed)));
  }
  x.push(1);
  y.push(1);
  const n = x.length;
  const slope = x.slice(1).map((right, k) => (y[k + 1]! - y[k]!) / (right - x[k]!));
  const tangent = x.map((_, k) =>
    k === 0 ? slope[0]! : k === n - 1 ? slope[n - 2]! : (slope[k - 1]! + slope[k]!) / 2,
  );
  for (let k = 0; k < n - 1; k++) {
    if (slope[k] === 0) {
      tangent[k] = 0;
      tangent[k + 1] = 0;
      continue;
    }
    const [a, b] = [tangent[k]! / slope[k]!, tangent[k + 1]! / slope[k]!];
    const length = Math.hypot(a, b);
    if (length > 3) {
      tangent[k] = (3 * a * slope[k]!) / length;
      tangent[k + 1] = (3 * b * slope[k]!) / length;
    }
  }
  return (film) => {
    const at = clamped(film);
    let k = 0;
    while (k < n - 2 && at > x[k + 1]!) k++;
    const h = x[k + 1]! - x[k]!;
    const t = (at - x[k]!) / h;
    const [t2, t3] = [t * t, t * t * t];
    return clamped(
      (2 * t3 - 3 * t2 + 1) * y[k]! +
        (t3 - 2 * t2 + t) * h * tangent[k]! +
        (3 * t2 - 2 * t3) * y[k + 1]! +
        (t3 - t2) * h * tangent[k + 1]!,
    );
  };
}

/** The lightest tone of the film that prints at least as dark as `asked` (0 to 1). */
export function filmTone(printed: (film: number) => number, asked: number): number {
  if (asked <= 0) return 0;
  if (asked >= 1) return 1;
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (printed(middle) < asked) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** For every asked tone (0 to 255) the tone to put on the film, so that the press makes it the one asked for. */
export function gainTable(gain: Gain): Uint8Array {
  const printed = printedTone(gain);
  return Uint8Array.from({ length: 256 }, (_, v) => {
    const level = Math.floor(255 * filmTone(printed, v / 255));
    // Of the two levels about it the one that prints nearer.
    const off = (film: number) => Math.abs(printed(film / 255) - v / 255);
    return level < 255 && off(level + 1) < off(level) ? level + 1 : level;
  });
}
