import { diffuseFast } from './kernels/diffuseFast.ts';
import { diffuseRowPlain } from './kernels/diffusePlain.ts';
import { kernels } from './kernels/load.ts';
import { blankMask, type Mask, signedWords } from './mask.ts';
import type { Plane } from './plane.ts';

/**
 * One bit a point of a plane of ink coverage (0 none, 255 full) by error diffusion (R. W. Floyd, L. Steinberg, 1976), in
 * turns from left to right and from right to left. Coverage is a share of area, which is linear in light already.
 */
export function errorDiffuse(plane: Plane): Mask {
  const out = blankMask(plane.width, plane.height);
  if (plane.width === 0) return out;
  const fast = kernels();
  if (fast) diffuseFast(fast, plane, out);
  else errorDiffusePlain(plane, out);
  return out;
}

/** The readable definition of `errorDiffuse`, on a blank mask. */
export function errorDiffusePlain(plane: Plane, out: Mask): void {
  let errors = new Int32Array(plane.width + 2);
  let next = new Int32Array(plane.width + 2);
  const words = signedWords(out);
  for (let y = 0; y < plane.height; y++) {
    diffuseRowPlain(
      plane.data,
      y * plane.width,
      plane.width,
      errors,
      next,
      words,
      y * out.stride,
      (y & 1) === 1,
    );
    [errors, next] = [next, errors];
  }
}
