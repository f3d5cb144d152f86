/** sRGB with straight alpha, four bytes a point, rows from the top: a decoded picture. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Uint8ClampedArray;
}

/** A picture as one channel of light, split in two at `level`; the deck is where `sign`·(light − level) > 0. */
export interface SplitLight {
  readonly width: number;
  readonly height: number;
  /** Linear light, 0 to 1. In it a point half covered by deck lies half-way between deck and ground. */
  readonly light: Float32Array;
  readonly level: number;
  readonly sign: 1 | -1;
  /** 0 to 255: the value, as encoded, at which the picture was split. */
  readonly threshold: number;
  /** How far apart the two sides are, encoded values, 0 to 255. */
  readonly contrast: number;
}

/** Linear light of each encoded value (IEC 61966-2-1). */
const LINEAR = Float64Array.from({ length: 256 }, (_, i) => {
  const v = i / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});
const encoded = (light: number) =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

/** Encoded value of linear light in steps of 1/4096, close enough to count by. */
const STEPS = 4096;
const ENCODED = Uint8Array.from({ length: STEPS + 1 }, (_, i) => Math.round(encoded(i / STEPS)));

/** Shares of red, green and blue in each way of looking: luminance (ITU-R BT.709), then each primary alone. */
const LOOKS: readonly (readonly [number, number, number])[] = [
  [0.2126, 0.7152, 0.0722],
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The value that parts a histogram with the greatest variance between its two sides (Otsu 1979), and that variance. */
export function otsu(histogram: ArrayLike<number>): { readonly at: number; readonly between: number } {
  let total = 0;
  let sum = 0;
  for (let i = 0; i < histogram.length; i++) {
    total += histogram[i]!;
    sum += i * histogram[i]!;
  }
  let below = 0;
  let belowSum = 0;
  let [first, last, between] = [0, 0, 0];
  for (let i = 0; i < histogram.length; i++) {
    below += histogram[i]!;
    belowSum += i * histogram[i]!;
    if (below === 0 || below === total) continue;
    const apart = belowSum / below - (sum - belowSum) / (total - below);
    const variance = (below / total) * (1 - below / total) * apart * apart;
    // Empty values between the sides all part them alike: the middle of them is the fairest.
    if (variance > between * (1 + 1e-12)) [first, last, between] = [i, i, variance];
    else if (variance >= between * (1 - 1e-12)) last = i;
  }
  return { at: (first + last + 1) / 2, between };
}

/** One way of looking at a picture, on white where it is clear: linear light. */
function lightOf({ width, height, data }: Pixels, look: readonly [number, number, number]): Float32Array {
  const out = new Float32Array(width * height);
  const [r, g, b] = look;
  for (let i = 0, o = 0; i < out.length; i++, o += 4) {
    const alpha = data[o + 3]! / 255;
    const light = r * LINEAR[data[o]!]! + g * LINEAR[data[o + 1]!]! + b * LINEAR[data[o + 2]!]!;
    out[i] = alpha * light + 1 - alpha;
  }
  return out;
}

function histogramOf(light: Float32Array): Uint32Array {
  const histogram = new Uint32Array(256);
  for (let i = 0; i < light.length; i++) histogram[ENCODED[Math.round(light[i]! * STEPS)]!]!++;
  return histogram;
}

/** Passes of [1 2 1]/4 along rows, then columns, in place: a Gaussian of σ = √(passes/2) points. */
export function soften(light: Float32Array, width: number, height: number, passes: number): void {
  const line = new Float32Array(Math.max(width, height));
  const run = (start: number, step: number, n: number) => {
    for (let i = 0; i < n; i++) line[i] = light[start + i * step]!;
    for (let i = 0; i < n; i++) {
      const before = line[Math.max(0, i - 1)]!;
      const after = line[Math.min(n - 1, i + 1)]!;
      light[start + i * step] = (before + 2 * line[i]! + after) / 4;
    }
  };
  for (let pass = 0; pass < passes; pass++) {
    for (let y = 0; y < height; y++) run(y * width, 1, width);
    for (let x = 0; x < width; x++) run(x, width, height);
  }
}

/**
 * Parts deck from ground by how light they are, or how red, green or blue, whichever parts them furthest. The ground is
 * what most of the picture's border shows. `threshold` (encoded, 0 to 255) replaces Otsu's on luminance.
 */
export function splitLight(picture: Pixels, threshold: number | null): SplitLight {
  const { width, height } = picture;
  let best: { light: Float32Array; at: number; between: number } = {
    light: new Float32Array(0),
    at: 0,
    between: -1,
  };
  for (const look of threshold === null ? LOOKS : LOOKS.slice(0, 1)) {
    const light = lightOf(picture, look);
    const { at, between } = otsu(histogramOf(light));
    if (between > best.between) best = { light, at, between };
  }
  const { light } = best;
  const cut = threshold ?? best.at;
  const cutLight = LINEAR[Math.floor(Math.min(255, Math.max(0, cut)))]!;
  soften(light, width, height, 2);
  let [dark, bright, darks] = [0, 0, 0];
  for (let i = 0; i < light.length; i++)
    if (light[i]! < cutLight) {
      dark += light[i]!;
      darks++;
    } else bright += light[i]!;
  const darkMean = darks ? dark / darks : 0;
  const brightMean = darks < light.length ? bright / (light.length - darks) : 1;
  const level = threshold === null ? (darkMean + brightMean) / 2 : cutLight;
  let edge = 0;
  const see = (i: number) => {
    edge += light[i]! > level ? 1 : -1;
  };
  for (let x = 0; x < width; x++) {
    see(x);
    see((height - 1) * width + x);
  }
  for (let y = 0; y < height; y++) {
    see(y * width);
    see(y * width + width - 1);
  }
  return {
    width,
    height,
    light,
    level,
    sign: edge > 0 ? -1 : 1,
    threshold: cut,
    contrast: encoded(brightMean) - encoded(darkMean),
  };
}
