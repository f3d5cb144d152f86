import { byteOfLinear, LINEAR_OF_BYTE } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';

/**
 * The picture with each square of `factor` × `factor` points averaged into one, in linear light, alpha straight; squares at the
 * right and lower border may be smaller. `factor` is whole and ≥ 1; for 1 the picture itself.
 */
export function reducePicture(picture: Picture, factor: number): Picture {
  if (!Number.isInteger(factor) || factor < 1)
    throw new RangeError(`A picture is reduced by a whole factor of at least 1, not by ${factor}.`);
  if (factor === 1) return picture;
  const width = picture.width as number;
  const height = picture.height as number;
  const outWidth = Math.ceil(width / factor);
  const outHeight = Math.ceil(height / factor);
  const data = new Uint8Array(outWidth * outHeight * 4);
  for (let row = 0; row < outHeight; row++)
    for (let col = 0; col < outWidth; col++) {
      const bottom = Math.min(height, (row + 1) * factor);
      const right = Math.min(width, (col + 1) * factor);
      let [r, g, b, alpha, points] = [0, 0, 0, 0, 0];
      for (let y = row * factor; y < bottom; y++)
        for (let at = 4 * (y * width + col * factor); at < 4 * (y * width + right); at += 4) {
          const a = picture.data[at + 3]!;
          r += a * LINEAR_OF_BYTE[picture.data[at]!]!;
          g += a * LINEAR_OF_BYTE[picture.data[at + 1]!]!;
          b += a * LINEAR_OF_BYTE[picture.data[at + 2]!]!;
          alpha += a;
          points++;
        }
      if (alpha === 0) continue;
      const at = 4 * (row * outWidth + col);
      data[at] = byteOfLinear(r / alpha);
      data[at + 1] = byteOfLinear(g / alpha);
      data[at + 2] = byteOfLinear(b / alpha);
      data[at + 3] = Math.round(alpha / points);
    }
  return { width: outWidth, height: outHeight, data };
}
