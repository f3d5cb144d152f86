import { type MoireInput, moirePicture } from '../../core/press/index.ts';

/** The product of mesh and halftone in greys: `side` mm square, `points` a mm. */
export function moireImage(
  input: MoireInput & { readonly threadUm: number },
  side: number,
  points: number,
): ImageData {
  const { data, width, height } = moirePicture(input, side, points);
  const image = new ImageData(width as number, height as number);
  const words = new Uint32Array(image.data.buffer);
  for (let i = 0; i < words.length; i++) words[i] = (0xff000000 | (data[i]! * 0x010101)) >>> 0;
  return image;
}
