import { LINEAR_OF_BYTE, type Oklab, oklabOfLinear, parseHex } from '../colour/index.ts';

/** The inks of a separation, and the colour of the art that means bare (null: only transparency does). */
export interface SeparatePalette {
  readonly inks: readonly { readonly hex: string }[];
  readonly ground: string | null;
  /** Further colours of the art that an ink prints (its place in `inks`), or that are bare (null): given by hand, they come first. */
  readonly also?: readonly { readonly hex: string; readonly ink: number | null }[] | undefined;
}

/**
 * What a point can be, pure: label 0 is transparent, then the ground if there is one, then the inks. `plane` is where
 * its coverage goes; both transparent and ground are bare, plane 0.
 */
export interface Labels {
  readonly count: number;
  readonly plane: Uint8Array;
  /** Encoded sRGB times alpha and alpha, 0 to 255, four a label. */
  readonly colour: Float64Array;
  readonly oklab: readonly Oklab[];
}

/** Labels a byte can hold beside its two flags; two are transparent and ground. */
export const MOST_LABELS = 64;

/** Set in a point's code when its colour is its label's own, but for rounding. */
export const TIGHT = 0x40;
/** Set in a point's code when its colour is too far from every label: then the label is only the nearest. */
export const FAR = 0x80;
/** The label in a code. */
export const LABEL = 0x3f;

/** Encoded levels, each channel: rounding of renderers and of a second save. */
const TIGHT_LEVELS = 3;
/** Encoded levels, over all channels: what JPEG at quality 60 does to flat colour. Measured in tests/reference. */
export const NEAR_LEVELS = 36;
/** Near one label means clearly nearer to it than to the next: share of the distance to that. */
const NEAR_SHARE = 0.45;

/** Throws for more colours than `MOST_LABELS` − 1 and for text that is no colour. */
export function labelsOf({ inks, ground, also = [] }: SeparatePalette): Labels {
  const seen = new Map<string, number>();
  const hexes: string[] = [];
  const planes: number[] = [0];
  const add = (hex: string, plane: number) => {
    const key = hex.toLowerCase();
    // The same colour twice can not be told apart: who was given it by hand, the ground, then the earlier ink, has it.
    if (seen.has(key)) return;
    seen.set(key, plane);
    hexes.push(hex);
    planes.push(plane);
  };
  for (const { hex, ink } of also) add(hex, ink === null ? 0 : ink + 1);
  if (ground !== null) add(ground, 0);
  inks.forEach((ink, i) => {
    add(ink.hex, i + 1);
  });
  const count = planes.length;
  if (count > MOST_LABELS) throw new RangeError(`A separation has at most ${MOST_LABELS - 1} colours.`);
  const colour = new Float64Array(count * 4);
  const oklab: Oklab[] = [{ l: 0, a: 0, b: 0 }];
  hexes.forEach((hex, i) => {
    const [r, g, b] = parseHex(hex);
    colour.set([r, g, b, 255], (i + 1) * 4);
    oklab.push(oklabOfLinear([LINEAR_OF_BYTE[r]!, LINEAR_OF_BYTE[g]!, LINEAR_OF_BYTE[b]!]));
  });
  return { count, plane: Uint8Array.from(planes), colour, oklab };
}

/** Two colours of one ink need not be told apart. */
const sameInk = ({ plane }: Labels, a: number, b: number): boolean => plane[a] === plane[b] && plane[a] !== 0;

/** The code of one colour: its label, `TIGHT` when it is that label's own, `FAR` when it is near none. */
export function codeOf(labels: Labels, r: number, g: number, b: number, alpha: number): number {
  if (alpha === 0) return TIGHT;
  const k = alpha / 255;
  const p0 = r * k;
  const p1 = g * k;
  const p2 = b * k;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  let second = Number.POSITIVE_INFINITY;
  for (let l = 0, o = 0; l < labels.count; l++, o += 4) {
    const d0 = p0 - labels.colour[o]!;
    const d1 = p1 - labels.colour[o + 1]!;
    const d2 = p2 - labels.colour[o + 2]!;
    const d3 = alpha - labels.colour[o + 3]!;
    const d = d0 * d0 + d1 * d1 + d2 * d2 + d3 * d3;
    if (d < least) {
      if (!sameInk(labels, l, best)) second = least;
      least = d;
      best = l;
    } else if (d < second && !sameInk(labels, l, best)) second = d;
  }
  const o = best * 4;
  const off = Math.max(
    Math.abs(p0 - labels.colour[o]!),
    Math.abs(p1 - labels.colour[o + 1]!),
    Math.abs(p2 - labels.colour[o + 2]!),
    Math.abs(alpha - labels.colour[o + 3]!),
  );
  const clear = least <= NEAR_SHARE * NEAR_SHARE * second;
  if (off <= TIGHT_LEVELS && clear) return best | TIGHT;
  if (least <= NEAR_LEVELS * NEAR_LEVELS && clear) return best;
  if (least === 0) return best | TIGHT;
  return nearestByEye(labels, r, g, b, alpha) | FAR;
}

/** The label that looks nearest (OKLab); more than half transparent is transparent. */
function nearestByEye(labels: Labels, r: number, g: number, b: number, alpha: number): number {
  if (alpha < 128 || labels.count === 1) return 0;
  const p = oklabOfLinear([LINEAR_OF_BYTE[r]!, LINEAR_OF_BYTE[g]!, LINEAR_OF_BYTE[b]!]);
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (let l = 1; l < labels.count; l++) {
    const q = labels.oklab[l]!;
    const [dl, da, db] = [p.l - q.l, p.a - q.a, p.b - q.b];
    const d = dl * dl + da * da + db * db;
    if (d < least) {
      least = d;
      best = l;
    }
  }
  return best;
}
