import {
  hexOfLinear,
  LINEAR_OF_BYTE,
  linearOfHex,
  linearOfOklab,
  type Oklab,
  oklabOfLinear,
} from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import { wordsOf } from './codes.ts';

/** A colour of the art: how often, and where it lies. */
export interface ArtColour {
  readonly hex: string;
  readonly count: number;
  readonly oklab: Oklab;
}

/** What colours the art is made of. */
export interface ArtColours {
  /** Points that are not bare: at least half opaque. */
  readonly inked: number;
  /** Colours of areas that are exactly even, the commonest first. */
  readonly exact: readonly ArtColour[];
  /** Colours of points that are in no even area: soft edges, hairlines, shading. */
  readonly loose: readonly ArtColour[];
  /** Colours of nearly even areas in bins of 5 bits a channel (JPEG, paper texture). */
  readonly even: readonly ArtColour[];
  /** All colours in bins of 5 bits a channel. */
  readonly all: readonly ArtColour[];
}

/** Encoded levels within which points are nearly even. */
const EVEN_LEVELS = 8;
/** Different loose colours kept; shaded art has millions, and then its bins serve. */
const MOST_LOOSE = 200_000;

export function artColour(hex: string, count: number): ArtColour {
  return { hex, count, oklab: oklabOfLinear(linearOfHex(hex)) };
}

export const artColourOf = (oklab: Oklab, count: number): ArtColour => ({
  hex: hexOfLinear(linearOfOklab(oklab)),
  count,
  oklab,
});

/** Bins of 5 bits a channel with the sums of the light in them. */
class Bins {
  readonly counts = new Float64Array(32768);
  readonly light = new Float64Array(32768 * 3);
  add(r: number, g: number, b: number): void {
    const bin = ((r >> 3) << 10) | ((g >> 3) << 5) | (b >> 3);
    this.counts[bin]! += 1;
    this.light[bin * 3]! += LINEAR_OF_BYTE[r]!;
    this.light[bin * 3 + 1]! += LINEAR_OF_BYTE[g]!;
    this.light[bin * 3 + 2]! += LINEAR_OF_BYTE[b]!;
  }
  list(): ArtColour[] {
    const found: ArtColour[] = [];
    for (let i = 0; i < this.counts.length; i++) {
      const n = this.counts[i]!;
      if (n === 0) continue;
      const mean = [this.light[i * 3]! / n, this.light[i * 3 + 1]! / n, this.light[i * 3 + 2]! / n] as const;
      found.push({ hex: hexOfLinear(mean), count: n, oklab: oklabOfLinear(mean) });
    }
    return found.sort(byCount);
  }
}

/** The commonest first; equal counts by text, so that the order is always the same. */
export const byCount = (a: ArtColour, b: ArtColour): number => b.count - a.count || (a.hex < b.hex ? -1 : 1);

/** Counts the art's colours. Soft edges are kept apart: they belong to no 2 × 2 block of one colour. */
export function artColoursOf(picture: Picture): ArtColours {
  const { width, height, data } = picture;
  const words = wordsOf(picture);
  const exact = new Map<number, number>();
  const loose = new Map<number, number>();
  const even = new Bins();
  const all = new Bins();
  let inked = 0;
  const alike = (i: number, j: number): boolean => {
    for (let c = 0; c < 3; c++) if (Math.abs(data[i * 4 + c]! - data[j * 4 + c]!) > EVEN_LEVELS) return false;
    return data[j * 4 + 3]! >= 250;
  };
  const block = (test: (j: number) => boolean, x: number, y: number): boolean => {
    const i = y * width + x;
    for (const dx of x === 0 ? [1] : x === width - 1 ? [-1] : [-1, 1]) {
      if (!test(i + dx)) continue;
      if (y > 0 && test(i - width) && test(i - width + dx)) return true;
      if (y < height - 1 && test(i + width) && test(i + width + dx)) return true;
    }
    return false;
  };
  /** All nine points about (x, y) alike: smears along edges are narrower. */
  const evenAbout = (x: number, y: number): boolean => {
    if (x === 0 || y === 0 || x === width - 1 || y === height - 1) return false;
    const i = y * width + x;
    for (let dy = -width; dy <= width; dy += width)
      for (let dx = -1; dx <= 1; dx++) if (!alike(i, i + dx + dy)) return false;
    return true;
  };
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const alpha = data[i * 4 + 3]!;
      if (alpha < 128) continue;
      inked++;
      if (alpha < 250) continue;
      const word = words[i]!;
      const r = data[i * 4]!;
      const g = data[i * 4 + 1]!;
      const b = data[i * 4 + 2]!;
      all.add(r, g, b);
      const colour = (r << 16) | (g << 8) | b;
      if (width > 1 && block((j) => words[j] === word, x, y)) {
        exact.set(colour, (exact.get(colour) ?? 0) + 1);
        if (evenAbout(x, y)) even.add(r, g, b);
        continue;
      }
      if (evenAbout(x, y)) even.add(r, g, b);
      const n = loose.get(colour);
      if (n !== undefined || loose.size < MOST_LOOSE) loose.set(colour, (n ?? 0) + 1);
    }
  const listed = (map: Map<number, number>, least: number) => {
    const found: ArtColour[] = [];
    for (const [colour, n] of map)
      if (n >= least) found.push(artColour(`#${((1 << 24) | colour).toString(16).slice(1)}`, n));
    return found.sort(byCount);
  };
  return {
    inked,
    exact: listed(exact, 1),
    loose: listed(loose, Math.max(2, inked * 0.0005)),
    even: even.list(),
    all: all.list(),
  };
}
