import {
  blankMask,
  type Component,
  complement,
  components,
  crop,
  getBit,
  grow,
  inkedBox,
  type Mask,
  opening,
  setBit,
  subtract,
} from '../raster/index.ts';
import { type Mm, pxToMm, toPx } from '../units/index.ts';

/** A stretch of ink or gap narrower than a width: a point on it and its box, in points of the mask, and how much of it. */
export interface ThinPlace {
  readonly x: number;
  readonly y: number;
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly areaPx: number;
}

export interface FinestFeatures {
  /** mm, the narrowest stretch of ink and of gap; null: none under the widest that was looked for. */
  readonly line: Mm | null;
  readonly gap: Mm | null;
}

/** mm: a stretch shorter than this may fall away unseen. Own choice. */
const SHORTEST = 2;

/**
 * Stretches of ink at most 2 · `radius` points wide and `longPx` or more long: what no disc of that radius reaches, corners
 * left out. Length is area over width, so that a taper counts for half of its own.
 */
function thinPieces(mask: Mask, radius: number, longPx: number): Component[] {
  return thinParts(mask, radius, longPx).pieces;
}

function thinParts(mask: Mask, radius: number, longPx: number): { thin: Mask; pieces: Component[] } {
  const thick = opening(mask, radius);
  grow(thick, radius, thick);
  const thin = subtract(mask, thick, blankMask(mask.width, mask.height));
  const wide = 2 * radius;
  return {
    thin,
    pieces: components(thin).filter((piece) => piece.area >= wide * Math.max(3 * wide, longPx)),
  };
}

/** What a disc of `radius` points does not reach of the ink, and which pieces of that are lines rather than corners. */
export const thinAtLeast = (mask: Mask, radius: number, dpi: number) =>
  thinParts(mask, radius, toPx(SHORTEST, dpi) as number);

/**
 * Where the ink is narrower than `width` mm over 2 mm or more: local thickness below it (morphological opening by the
 * largest digital disc under that width). The remnants at corners are no lines and are left out: what lies within a
 * radius of thicker ink, and pieces shorter than three times the width. Largest first.
 */
export function thinPlaces(mask: Mask, dpi: number, width: Mm): ThinPlace[] {
  const most = Math.ceil((toPx(width, dpi) as number) - 1e-9) - 1;
  const radius = Math.floor(most / 2);
  if (radius < 1) return [];
  return thinPieces(mask, radius, toPx(SHORTEST, dpi) as number)
    .map(({ x, y, box, area }) => ({ x: x as number, y: y as number, box, areaPx: area }))
    .sort((a, b) => b.areaPx - a.areaPx || a.y - b.y || a.x - b.x);
}

/** The window with every point doubled, so that discs tell even widths from odd ones. */
function doubled(mask: Mask): Mask {
  const out = blankMask((mask.width as number) * 2, (mask.height as number) * 2);
  for (let y = 0; y < (mask.height as number); y++)
    for (let x = 0; x < (mask.width as number); x++)
      if (getBit(mask, x, y))
        for (let k = 0; k < 4; k++) setBit(out, 2 * x + (k & 1), 2 * y + (k >> 1), true);
  return out;
}

/**
 * The narrowest width at which thin places show; null when none up to 2 · `most` points. Upwards from the finest: what
 * counts as a piece grows with the width, so a fine line found early may be too small to count for a wider one.
 */
function narrowest(mask: Mask, dpi: number, most: number): Mm | null {
  let some = 1;
  const long = toPx(SHORTEST, dpi) as number;
  let pieces = thinPieces(mask, some, long);
  while (pieces.length === 0) {
    if (++some > most) return null;
    pieces = thinPieces(mask, some, long);
  }
  return widthOfPieces(mask, dpi, some, pieces);
}

/** Width of the pieces that show first at this radius: whole discs are odd, so 2 · radius − 1 or 2 · radius points. */
export function widthOfPieces(mask: Mask, dpi: number, radius: number, pieces: readonly Component[]): Mm {
  const long = toPx(SHORTEST, dpi) as number;
  // At twice the size the discs tell the two apart.
  const odd = 2 * radius - 1;
  const margin = 4 * radius;
  const isOdd = pieces.slice(0, 12).some(({ box }) => {
    const window = crop(
      mask,
      (box.x as number) - margin,
      (box.y as number) - margin,
      Math.min(1500, (box.width as number) + 2 * margin),
      Math.min(1500, (box.height as number) + 2 * margin),
    );
    return thinPieces(doubled(window), odd, 2 * long).length > 0;
  });
  return pxToMm(isOdd ? odd : 2 * radius, dpi);
}

/**
 * The finest line and gap of a film, by local thickness at its own resolution, looked for up to `most` mm. Gaps are bare
 * places between ink, 2 mm or longer; the bare ground round the art is none.
 */
export function finestFeatures(mask: Mask, dpi: number, most: Mm): FinestFeatures {
  const box = inkedBox(mask);
  if (!box) return { line: null, gap: null };
  const mostPx = Math.max(1, Math.ceil((toPx(most, dpi) as number) / 2));
  const margin = 6 * mostPx;
  const part = crop(
    mask,
    (box.x as number) - margin,
    (box.y as number) - margin,
    (box.width as number) + 2 * margin,
    (box.height as number) + 2 * margin,
  );
  return { line: narrowest(part, dpi, mostPx), gap: narrowest(complement(part), dpi, mostPx) };
}
