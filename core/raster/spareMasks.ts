import type { Px } from '../units/index.ts';
import { type Mask, strideFor } from './mask.ts';

/** Masks kept for the next borrower; more of a film at 1200 dpi would be more than the work itself needs. */
const MOST_KEPT = 4;
/** A kept one serves where at least this share of it is wanted: bands at a mask's ends are shorter than the others. */
const LEAST_USED = 0.5;
const kept: Uint32Array[] = [];

const serves = (room: number, words: number): boolean => words <= room && words >= LEAST_USED * room;

/**
 * A mask with anything in it, for what a thread works with on the way. Memory touched for the first time costs more than most of
 * what is done in it, so that one who works through many inks borrows the same again; `giveBack` it when done, and use it no more.
 */
export function borrowMask(width: Px, height: Px): Mask {
  const stride = strideFor(width);
  const words = stride * (height as number);
  const at = kept.findIndex((room) => serves(room.length, words));
  const room = at < 0 ? new Uint32Array(words) : (kept.splice(at, 1)[0] as Uint32Array);
  return { width, height, stride, data: room.length === words ? room : room.subarray(0, words) };
}

/** A borrowed mask without ink. */
export function borrowBlank(width: Px, height: Px): Mask {
  const mask = borrowMask(width, height);
  mask.data.fill(0);
  return mask;
}

/** Hands borrowed masks back. Those of quite another size than the last are let go. */
export function giveBack(...masks: readonly Mask[]): void {
  for (const { data } of masks) {
    const room = new Uint32Array(data.buffer);
    const [least, most] = [room.length, kept[0]?.length ?? room.length].sort((a, b) => a - b) as [
      number,
      number,
    ];
    if (!serves(most, least)) kept.length = 0;
    if (kept.length < MOST_KEPT) kept.push(room);
  }
}
