import type { Px } from '../units/index.ts';

/** sRGB with straight (not premultiplied) alpha, four bytes a point, rows from the top, no padding. */
export interface Picture {
  readonly width: Px;
  readonly height: Px;
  readonly data: Uint8Array | Uint8ClampedArray;
}

/**
 * Half as wide and high, rounded up: each point the mean of two by two, in encoded values, weighed by alpha. For quick looks.
 * A last odd column or row counts twice.
 */
export function halved({ width, height, data }: Picture): Picture {
  const [across, down] = [Math.ceil(width / 2), Math.ceil(height / 2)];
  const out = new Uint8Array(across * down * 4);
  for (let y = 0, to = 0; y < down; y++) {
    const upper = 2 * y * width;
    const lower = Math.min(2 * y + 1, height - 1) * width;
    for (let x = 0; x < across; x++, to += 4) {
      const right = Math.min(2 * x + 1, width - 1);
      const a = 4 * (upper + 2 * x);
      const b = 4 * (upper + right);
      const c = 4 * (lower + 2 * x);
      const d = 4 * (lower + right);
      const [p, q, r, s] = [data[a + 3]!, data[b + 3]!, data[c + 3]!, data[d + 3]!];
      const alpha = p + q + r + s;
      if (alpha === 0) continue;
      for (let n = 0; n < 3; n++)
        out[to + n] = Math.round(
          (data[a + n]! * p + data[b + n]! * q + data[c + n]! * r + data[d + n]! * s) / alpha,
        );
      out[to + 3] = Math.round(alpha / 4);
    }
  }
  return { width: across, height: down, data: out };
}
