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

/**
 * A blank mask of the same size, in memory of this thread alone: what a thread works with on the way is given back when it is
 * done with it, and shared memory is not.
 */
export const blankLike = (mask: Mask): Mask => blankMask(mask.width, mask.height);

/** Words of a page of memory on most machines. */
const STRETCH = 1024;

/** The same ink in words of its own (or in `out`, of the same size). */
export function copyMask(mask: Mask, out: Mask = blankLike(mask)): Mask {
  sameSize(mask, out);
  out.data.set(mask.data);
  return out;
}

/**
 * `copyMask` to a mask that has no ink where `mask` has none: bare stretches of 4 KB are passed over, whose memory then need not
 * be there. Blank memory costs nothing until it is written to, and most of a film is bare.
 */
export function copyInk(mask: Mask, out: Mask): Mask {
  sameSize(mask, out);
  const [from, to] = [signedWords(mask), signedWords(out)];
  for (let at = 0; at < from.length; at += STRETCH) {
    const end = Math.min(from.length, at + STRETCH);
    let i = at;
    while (i < end && from[i] === 0) i++;
    if (i < end) to.set(from.subarray(at, end), at);
  }
  return out;
}

/** Rows `from` to before `to` of a mask, in its own words. */
export const rowsOf = ({ width, stride, data }: Mask, from: Px, to: Px): Mask => ({
  width,
  height: to - from,
  stride,
  data: data.subarray(from * stride, to * stride),
});

/** Whether point (x, y) has ink; points outside the mask have none. */
export function getBit(mask: Mask, x: Px, y: Px): boolean {
  if (x < 0 || y < 0 || x >= mask.width || y >= mask.height) return false;
  return ((mask.data[y * mask.stride + (x >>> 5)]! >>> (x & 31)) & 1) === 1;
}

/** Inks point (x, y), or clears it when `ink` is false; points outside the mask are left alone. */
export function setBit(mask: Mask, x: Px, y: Px, ink = true): void {
  if (x < 0 || y < 0 || x >= mask.width || y >= mask.height) return;
  const word = y * mask.stride + (x >>> 5);
  const bit = 1 << (x & 31);
  mask.data[word] = ink ? mask.data[word]! | bit : mask.data[word]! & ~bit;
}

/** The same words as signed integers: the engine keeps those in registers without a detour over doubles. */
export const signedWords = (mask: Mask): Int32Array =>
  new Int32Array(mask.data.buffer, mask.data.byteOffset, mask.data.length);

/** The bits of a row's last used word that lie within `width`: all of them when the width is a multiple of 32. */
export const tailBits = (width: Px): number => -1 >>> ((32 - (width & 31)) & 31);

/** Throws unless both masks have the same size: mixing sizes is a bug of the caller. */
export function sameSize(a: Mask, b: Mask): void {
  if (a.width !== b.width || a.height !== b.height || a.stride !== b.stride)
    throw new RangeError(
      `Masks must have one size, but one is ${a.width} × ${a.height} and the other ${b.width} × ${b.height}.`,
    );
}
