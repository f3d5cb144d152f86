import { deltaE00, type LinearRgb, labOfLinear } from '../../core/colour/index.ts';

/**
 * What an eye at some distance makes of a picture: opponent channels, each blurred as the eye's contrast sensitivity does
 * (X. Zhang, B. A. Wandell, “A spatial extension of CIELAB for digital color image reproduction”, 1996; weights and spreads
 * from memory, without the widest term of each, which only shifts large areas; sums brought to 1).
 */
const OPPONENT = [
  {
    row: [0.279, 0.72, -0.107],
    blurs: [
      [0.921, 0.0283],
      [0.105, 0.133],
    ],
  },
  {
    row: [-0.449, 0.29, -0.077],
    blurs: [
      [0.531, 0.0392],
      [0.33, 0.494],
    ],
  },
  {
    row: [0.086, -0.59, 0.501],
    blurs: [
      [0.488, 0.0536],
      [0.371, 0.386],
    ],
  },
] as const;
/** Linear sRGB to XYZ (IEC 61966-2-1). */
const TO_XYZ = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
] as const;

/** Gaussian exp(−(x / spread)²) along rows and columns, edges repeated. */
function blurred(from: Float64Array, width: number, height: number, spread: number): Float64Array {
  const reach = Math.max(1, Math.ceil(3 * spread));
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-(((i - reach) / spread) ** 2)));
  const sum = weights.reduce((a, b) => a + b);
  const pass = (source: Float64Array, across: boolean) => {
    const out = new Float64Array(source.length);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        let v = 0;
        for (let k = -reach; k <= reach; k++) {
          const u = across ? Math.min(width - 1, Math.max(0, x + k)) : x;
          const w = across ? y : Math.min(height - 1, Math.max(0, y + k));
          v += weights[k + reach]! * source[w * width + u]!;
        }
        out[y * width + x] = v / sum;
      }
    return out;
  };
  return pass(pass(from, true), false);
}

const inverse = (m: readonly (readonly number[])[]): number[][] => {
  const [a, b, c] = m as [number[], number[], number[]];
  const cross = (p: number[], q: number[]) => [
    p[1]! * q[2]! - p[2]! * q[1]!,
    p[2]! * q[0]! - p[0]! * q[2]!,
    p[0]! * q[1]! - p[1]! * q[0]!,
  ];
  const [r0, r1, r2] = [cross(b, c), cross(c, a), cross(a, b)];
  const det = a[0]! * r0[0]! + a[1]! * r0[1]! + a[2]! * r0[2]!;
  return [0, 1, 2].map((i) => [r0[i]! / det, r1[i]! / det, r2[i]! / det]);
};

/** Light, three numbers a point. */
export interface Light {
  readonly width: number;
  readonly height: number;
  readonly data: Float64Array;
}

/** The picture as seen where a degree of view spans `pointsADegree` points. */
export function seen({ width, height, data }: Light, pointsADegree: number): Light {
  const toOpponent = OPPONENT.map(({ row }) =>
    [0, 1, 2].map((c) => row[0] * TO_XYZ[0][c]! + row[1] * TO_XYZ[1][c]! + row[2] * TO_XYZ[2][c]!),
  );
  const back = inverse(toOpponent);
  const points = width * height;
  const channels = toOpponent.map((row, k) => {
    const channel = Float64Array.from(
      { length: points },
      (_, i) => row[0]! * data[3 * i]! + row[1]! * data[3 * i + 1]! + row[2]! * data[3 * i + 2]!,
    );
    const { blurs } = OPPONENT[k]!;
    const whole = blurs.reduce((sum, [weight]) => sum + weight, 0);
    const out = new Float64Array(points);
    for (const [weight, spread] of blurs)
      blurred(channel, width, height, spread * pointsADegree).forEach((v, i) => {
        out[i] = out[i]! + (weight / whole) * v;
      });
    return out;
  });
  const out = new Float64Array(3 * points);
  for (let i = 0; i < points; i++)
    for (let c = 0; c < 3; c++)
      out[3 * i + c] =
        back[c]![0]! * channels[0]![i]! + back[c]![1]! * channels[1]![i]! + back[c]![2]! * channels[2]![i]!;
  return { width, height, data: out };
}

/** Mean CIEDE2000 difference of two pictures, point by point. */
export function meanDifference(a: Light, b: Light): number {
  let sum = 0;
  const at = ({ data }: Light, i: number): LinearRgb => [
    Math.max(0, data[3 * i]!),
    Math.max(0, data[3 * i + 1]!),
    Math.max(0, data[3 * i + 2]!),
  ];
  const points = a.width * a.height;
  for (let i = 0; i < points; i++) sum += deltaE00(labOfLinear(at(a, i)), labOfLinear(at(b, i)));
  return sum / points;
}
