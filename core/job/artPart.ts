import type { Art, Crop } from './schema.ts';

const WHOLE: Crop = { left: 0, top: 0, right: 0, bottom: 0 };

/** What is cut away from each side, as shares of the art's own size. */
export const cropOf = (piece: Pick<Art, 'crop'>): Crop => piece.crop ?? WHOLE;

/** The part of the art that is left, in fractions of it: 0, 0 is its top left corner, 1, 1 its bottom right. */
export function partOf(piece: Pick<Art, 'crop'>): {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
} {
  const { left, top, right, bottom } = cropOf(piece);
  return { x0: left, y0: top, x1: 1 - right, y1: 1 - bottom };
}

/** The size the whole art would have on the deck, mm, what is cut away included. */
export function wholeSize(piece: Pick<Art, 'crop' | 'width' | 'height'>): {
  readonly width: number;
  readonly height: number;
} {
  const { x0, y0, x1, y1 } = partOf(piece);
  return { width: piece.width / (x1 - x0), height: piece.height / (y1 - y0) };
}

/** The art's own pixels a mm of the wood, the lower of its two directions; null for drawings, which have none. */
export function artPxPerMm(piece: Art): number | null {
  if (piece.mediaType === 'image/svg+xml') return null;
  const { width, height } = wholeSize(piece);
  return Math.min(piece.widthPx / width, piece.heightPx / height);
}

/** Least share of the art, and least length in mm, that a crop leaves. */
const LEAST_SHARE = 0.006;
const LEAST_MM = 0.1;

/** A pair of cuts made to leave something: each at least 0, the second giving way to the first. */
function bounded(first: number, second: number, length: number): [number, number] {
  const least = Math.max(LEAST_SHARE, LEAST_MM / length);
  const most = Math.max(0, 1 - least);
  // Rounding dust is no cut.
  const clean = (share: number) => (share < 1e-9 ? 0 : share);
  const a = Math.min(most, clean(first));
  return [a, Math.min(Math.max(0, most - a), clean(second))];
}

/**
 * What changes when the piece is cut to `crop` (null: the whole art again): what stays of it keeps its place on the deck and its
 * scale. Cuts that would leave nothing are held back.
 */
export function withCrop(piece: Art, crop: Crop | null): Pick<Art, 'x' | 'y' | 'width' | 'height' | 'crop'> {
  const whole = wholeSize(piece);
  const wanted = crop ?? WHOLE;
  const [left, right] = bounded(wanted.left, wanted.right, whole.width);
  const [top, bottom] = bounded(wanted.top, wanted.bottom, whole.height);
  const before = partOf(piece);
  const after = { left, top, right, bottom };
  const now = partOf({ crop: after });
  // How far the middle of the part moves in the art's own frame, mm; y up.
  const flip = piece.mirror ? -1 : 1;
  const dx = (flip * (now.x0 + now.x1 - before.x0 - before.x1) * whole.width) / 2;
  const dy = (-(now.y0 + now.y1 - before.y0 - before.y1) * whole.height) / 2;
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return {
    x: piece.x + cos * dx - sin * dy,
    y: piece.y + sin * dx + cos * dy,
    width: whole.width * (now.x1 - now.x0),
    height: whole.height * (now.y1 - now.y0),
    crop: left + top + right + bottom === 0 ? undefined : after,
  };
}

/** The crop that cuts a piece down to a box in its own turned frame, mm from its middle, +x to its right as it lies, +y up. */
export function cropToBox(
  piece: Art,
  box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number },
): Crop {
  const whole = wholeSize(piece);
  const before = cropOf(piece);
  const left = (box.x0 + piece.width / 2) / whole.width;
  const right = (piece.width / 2 - box.x1) / whole.width;
  const [own, other] = piece.mirror ? [right, left] : [left, right];
  return {
    left: before.left + own,
    right: before.right + other,
    top: before.top + (piece.height / 2 - box.y1) / whole.height,
    bottom: before.bottom + (box.y0 + piece.height / 2) / whole.height,
  };
}
