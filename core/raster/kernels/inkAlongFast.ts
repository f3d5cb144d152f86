import { type Mask, signedWords } from '../mask.ts';
import { type PathOverInk, RUN } from './inkAlongPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of `inkAlongPlain`; the mask is copied whole. */
export function inkAlongFast(kernels: Kernels, mask: Mask, path: PathOverInk): Int32Array {
  const { corners, looks } = path;
  let most = 1;
  for (let i = 0; i < looks.length; i++) most += looks[i]!;
  const scratch = new Scratch();
  const cornersAt = scratch.take(corners.byteLength);
  const looksAt = scratch.take(looks.byteLength);
  const wordsAt = scratch.take(mask.data.byteLength);
  // Every other look may begin a run.
  const outAt = scratch.take(((most + 1) >> 1) * RUN * 4);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  new Float64Array(kernels.memory.buffer).set(corners, cornersAt >> 3);
  memory.set(looks, looksAt >> 2);
  memory.set(signedWords(mask), wordsAt >> 2);
  const { width, height, stride } = mask;
  const runs = kernels.inkAlong(
    wordsAt,
    stride * 4,
    width,
    height,
    path.x,
    path.y,
    path.left,
    path.top,
    path.scale,
    cornersAt,
    looksAt,
    looks.length,
    path.feel,
    path.reach,
    outAt,
  );
  return memory.slice(outAt >> 2, (outAt >> 2) + runs * RUN);
}
