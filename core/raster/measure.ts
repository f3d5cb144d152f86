import type { Px } from '../units/index.ts';
import { type Mask, signedWords } from './mask.ts';

/** A rectangle of whole points: (x, y) its top left point. */
export interface PxBox {
  readonly x: Px;
  readonly y: Px;
  readonly width: Px;
  readonly height: Px;
}

/** Bits set in a 32-bit word. (Parallel count: H. S. Warren, Hacker's Delight, section 5-1.) */
export function bitsIn(word: number): number {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** Whether two masks have the same size and the same ink. */
export function equal(a: Mask, b: Mask): boolean {
  if (a.width !== b.width || a.height !== b.height) return false;
  const [p, q] = [signedWords(a), signedWords(b)];
  for (let i = 0; i < p.length; i++) if (p[i] !== q[i]) return false;
  return true;
}

/** Points with ink. */
export function inkCount(mask: Mask): number {
  const words = signedWords(mask);
  let count = 0;
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (word !== 0) count += bitsIn(word);
  }
  return count;
}

/** Whether the mask has no ink at all. */
export function isBlank(mask: Mask): boolean {
  const words = signedWords(mask);
  for (let i = 0; i < words.length; i++) if (words[i] !== 0) return false;
  return true;
}

/** The smallest box of points that holds all ink, or null when there is none. */
export function inkedBox(mask: Mask): PxBox | null {
  const { stride, height } = mask;
  const words = signedWords(mask);
  const columns = new Int32Array(stride);
  let top = -1;
  let bottom = -1;
  for (let y = 0; y < height; y++) {
    let any = 0;
    for (let w = 0, i = y * stride; w < stride; w++, i++) {
      const word = words[i]!;
      any |= word;
      columns[w] = columns[w]! | word;
    }
    if (any !== 0) {
      if (top < 0) top = y;
      bottom = y;
    }
  }
  if (top < 0) return null;
  const first = columns.findIndex((word) => word !== 0);
  const last = columns.findLastIndex((word) => word !== 0);
  const lowest = columns[first]! & -columns[first]!;
  const left = first * 32 + 31 - Math.clz32(lowest);
  const right = last * 32 + 31 - Math.clz32(columns[last]!);
  return { x: left, y: top, width: right - left + 1, height: bottom - top + 1 };
}
