import type { Mask } from '../raster/index.ts';
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
  const headBits = (0xffffffff << (left & 31)) >>> 0;
  const tailBits = 0xffffffff >>> (31 - ((right - 1) & 31));
  for (let y = Math.max(0, y0); y < last; y++) {
    const row = y * mask.stride;
    for (let w = first; w <= end; w++) {
      let word = mask.data[row + w]!;
      if (w === first) word &= headBits;
      if (w === end) word &= tailBits;
      if (word !== 0) return true;
    }
  }
  return false;
}

/** The rows and columns of a raster that lie in a box of film space, rounded outward. */
export function pixelsOf(art: FilmArt, box: Box): { x0: number; y0: number; x1: number; y1: number } {
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
export interface InkProfile {
  readonly top: Int32Array;
  readonly bottom: Int32Array;
  readonly left: Int32Array;
  readonly right: Int32Array;
}

/** Profile of all masks together. A column or row without ink has first = its length and last = -1. */
export function inkProfile(masks: readonly Mask[]): InkProfile {
  const { width, height, stride } = masks[0]!;
  const [w, h] = [width as number, height as number];
  const top = new Int32Array(w).fill(h);
  const bottom = new Int32Array(w).fill(-1);
  const left = new Int32Array(h).fill(w);
  const right = new Int32Array(h).fill(-1);
  const joined = new Uint32Array(stride);
  const seen = new Uint32Array(stride);
  const unite = (y: number) => {
    const row = y * stride;
    for (let i = 0; i < stride; i++) joined[i] = masks[0]!.data[row + i]!;
    for (let m = 1; m < masks.length; m++) {
      const data = masks[m]!.data;
      for (let i = 0; i < stride; i++) joined[i]! |= data[row + i]!;
    }
  };
  const scan = (y: number, into: Int32Array) => {
    for (let i = 0; i < stride; i++) {
      let fresh = (joined[i]! & ~seen[i]!) >>> 0;
      if (fresh === 0) continue;
      seen[i]! |= fresh;
      while (fresh !== 0) {
        const bit = 31 - Math.clz32(fresh & -fresh);
        into[i * 32 + bit] = y;
        fresh = (fresh & (fresh - 1)) >>> 0;
      }
    }
  };
  for (let y = 0; y < h; y++) {
    unite(y);
    scan(y, top);
    for (let i = 0; i < stride; i++) {
      const word = joined[i]!;
      if (word === 0) continue;
      left[y] = i * 32 + 31 - Math.clz32(word & -word);
      break;
    }
    for (let i = stride - 1; i >= 0; i--) {
      const word = joined[i]!;
      if (word === 0) continue;
      right[y] = i * 32 + 31 - Math.clz32(word);
      break;
    }
  }
  seen.fill(0);
  for (let y = h - 1; y >= 0; y--) {
    unite(y);
    scan(y, bottom);
  }
  return { top, bottom, left, right };
}
