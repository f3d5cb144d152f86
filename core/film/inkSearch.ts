import type { InkSurvey, Mask } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';

/** Is there ink of `mask` in columns x0 ≤ x < x1, rows y0 ≤ y < y1? The rectangle may reach beyond the mask. */
export function inkIn(mask: Mask, x0: number, y0: number, x1: number, y1: number): boolean {
  const left = Math.max(0, x0);
  const right = Math.min(mask.width as number, x1);
  const last = Math.min(mask.height as number, y1);
  if (left >= right) return false;
  const first = left >>> 5;
  const end = (right - 1) >>> 5;
  const headBits = -1 << (left & 31);
  const tailBits = -1 >>> (31 - ((right - 1) & 31));
  for (let y = Math.max(0, y0); y < last; y++) {
    const row = y * mask.stride;
    for (let w = first; w <= end; w++) {
      // As a signed word, which the engine keeps in a register.
      let word = mask.data[row + w]! | 0;
      if (w === first) word &= headBits;
      if (w === end) word &= tailBits;
      if (word !== 0) return true;
    }
  }
  return false;
}

/** The rows and columns of a raster that lie in a box of film space, rounded outward. */
export function pixelsOf(
  art: Pick<FilmArt, 'box' | 'dpi'>,
  box: Box,
): { x0: number; y0: number; x1: number; y1: number } {
  const scale = art.dpi / 25.4;
  const top = art.box.y + art.box.height;
  // A thousandth of a pixel is rounding noise, not a pixel.
  return {
    x0: Math.floor((box.x - art.box.x) * scale + 1e-3),
    x1: Math.ceil((box.x + box.width - art.box.x) * scale - 1e-3),
    y0: Math.floor((top - box.y - box.height) * scale + 1e-3),
    y1: Math.ceil((top - box.y) * scale - 1e-3),
  };
}

/** Does any of the films print in this box of film space? */
export function anyInk(films: readonly FilmArt[], box: Box): boolean {
  for (const film of films) {
    const { x0, y0, x1, y1 } = pixelsOf(film, box);
    if (inkIn(film.mask, x0, y0, x1, y1)) return true;
  }
  return false;
}

/** Furthest inked pixels: first and last inked row of every column, first and last inked column of every row. */
export type InkProfile = Pick<InkSurvey, 'top' | 'bottom' | 'left' | 'right'>;

/** The least of several lists, place by place, and the most: handed the lists themselves, each is compiled once. */
function least(lists: readonly Int32Array[]): Int32Array {
  const out = lists[0]!.slice();
  for (let k = 1; k < lists.length; k++) {
    const own = lists[k]!;
    for (let i = 0; i < out.length; i++) if (own[i]! < out[i]!) out[i] = own[i]!;
  }
  return out;
}
function most(lists: readonly Int32Array[]): Int32Array {
  const out = lists[0]!.slice();
  for (let k = 1; k < lists.length; k++) {
    const own = lists[k]!;
    for (let i = 0; i < out.length; i++) if (own[i]! > out[i]!) out[i] = own[i]!;
  }
  return out;
}

/** The profile of several masks of one size together. A column or row without ink has first = its length and last = -1. */
export const joinProfiles = (profiles: readonly InkProfile[]): InkProfile => ({
  top: least(profiles.map(({ top }) => top)),
  bottom: most(profiles.map(({ bottom }) => bottom)),
  left: least(profiles.map(({ left }) => left)),
  right: most(profiles.map(({ right }) => right)),
});
