import type { Px } from '../units/index.ts';

/**
 * One bit a point: 1 is ink. Rows run from the top; a row is `stride` 32-bit words (a multiple of 4, so that each row
 * starts on 16 bytes), least significant bit first: point x is bit `x & 31` of word `x >> 5`. Bits beyond `width` are
 * always 0, and every function keeps them so.
 */
export interface Mask {
  readonly width: Px;
  readonly height: Px;
  /** 32-bit words a row. */
  readonly stride: number;
  /** stride × height words; may lie in shared memory. */
  readonly data: Uint32Array;
}

/** Words a row of `width` points needs, rounded up to 16 bytes. */
export const strideFor = (width: Px): number => (((width as number) + 127) >>> 7) << 2;

/** A mask without ink. `shared` puts it in shared memory, for workers. */
export function blankMask(width: Px, height: Px, shared = false): Mask {
  const stride = strideFor(width);
  const bytes = stride * (height as number) * 4;
  const data = shared ? new Uint32Array(new SharedArrayBuffer(bytes)) : new Uint32Array(bytes / 4);
  return { width, height, stride, data };
}
