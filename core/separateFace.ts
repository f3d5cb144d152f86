import { isCoarse } from './coarseArt.ts';
import { artGrid, type FaceRaster, gridInWindow } from './faceRaster.ts';
import { palettePartsOf, regionsOf } from './handInks.ts';
import { type Art, type FaceJob, isToned, partOf, wholeSize } from './job/index.ts';
import { blankMask, type Mask, type Picture, subtract, union } from './raster/index.ts';
import { GRAINY_MARGIN_PX, SEPARATE_MARGIN_PX } from './separate/index.ts';
import type { TileInput } from './separateTile.ts';
import { shownPart } from './shownPart.ts';
import { pxPerMm } from './units/index.ts';

/**
 * Points of the art that a tile of the face needs at most, or nearly, with its margins: fewer and larger tiles read a drawing's text
 * less often, smaller ones need less memory. A drawing is drawn in squares of 2000 points, for each of which all of it is gone
 * through: windows are one such square wide and at most two high. Tiles start at multiples of `TILE_STEP` points, so that they share
 * no words and no node of the tabulated wrap lies elsewhere for another choice of tiles.
 */
const TILE_ART = { across: 2000, down: 4000 } as const;
const TILE_STEP = 256;
/** Art with more points than this to a film point is reduced first, or detail between the samples would be lost. */
const DENSEST = 1.5;

/**
 * Points to the inch a drawing is drawn at: half the film's, for its soft edges are solved and brought to the film's own points,
 * within a third of a film point (tests/reference/separationEdges draws at 300 for films of 600); never more than the last, nor
 * less than the first unless the film has less.
 */
const DRAWN_DPI = [300, 600] as const;

const drawnDpi = (dpi: number): number =>
  Math.min(DRAWN_DPI[1], Math.max(dpi / 2, Math.min(dpi, DRAWN_DPI[0])));

/** A piece of art as pixels: the size it is drawn at, and a window of it. */
export interface ArtPixels {
  readonly width: number;
  readonly height: number;
  /** See `isGrainy`; left out: drawn art. */
  readonly grainy?: boolean;
}

/** How large a piece, with what is cropped away, is best drawn for a raster: as many points as the raster has there, but never more than it has. */
export function drawnSize(piece: Art, dpi: number): ArtPixels {
  const whole = wholeSize(piece);
  if (piece.mediaType === 'image/svg+xml') {
    const fine = pxPerMm(drawnDpi(dpi));
    return {
      width: Math.max(1, Math.round(whole.width * fine)),
      height: Math.max(1, Math.round(whole.height * fine)),
    };
  }
  const across = whole.width * pxPerMm(dpi);
  const down = whole.height * pxPerMm(dpi);
  const density = Math.max(piece.widthPx / across, piece.heightPx / down);
  if (density <= DENSEST) return { width: piece.widthPx, height: piece.heightPx };
  return {
    width: Math.max(1, Math.round(piece.widthPx / density)),
    height: Math.max(1, Math.round(piece.heightPx / density)),
  };
}

/** A tile of the grid with the window of the art that it needs, in points of the art as drawn. */
export interface TilePlan {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly window: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  /** The window's own picture in it is without what is cropped away. */
  readonly input: (window: Picture, out: readonly Mask[]) => TileInput;
}

/** Points a side of equal tiles of `length` of them, each of which needs at most about `most` of the art. */
function tileSide(length: number, artPerPoint: number, most: number): number {
  const tiles = Math.max(1, Math.ceil((length * artPerPoint) / most));
  return Math.max(TILE_STEP, Math.ceil(length / tiles / TILE_STEP) * TILE_STEP);
}

/** The tiles of the face that a piece reaches, drawn at `pixels`. */
export function planTiles(raster: FaceRaster, face: FaceJob, piece: Art, pixels: ArtPixels): TilePlan[] {
  const plans: TilePlan[] = [];
  const { inks, also } = palettePartsOf(face);
  const list = regionsOf(face, piece);
  const [scaleX, scaleY] = [pixels.width / piece.widthPx, pixels.height / piece.heightPx];
  const shares = partOf(piece);
  const part = {
    x0: shares.x0 * pixels.width,
    y0: shares.y0 * pixels.height,
    x1: shares.x1 * pixels.width,
    y1: shares.y1 * pixels.height,
  };
  // A flat ink covers or does not: a faint piece is as solid as any other.
  const opacity = isToned(face) ? (piece.opacity ?? 1) : 1;
  const margin = pixels.grainy ? GRAINY_MARGIN_PX : SEPARATE_MARGIN_PX;
  const coarse = isCoarse(piece);
  const artPerPoint = pixels.width / (wholeSize(piece).width * pxPerMm(raster.dpi));
  const across = tileSide(raster.width, artPerPoint, TILE_ART.across - 2 * margin);
  const down = tileSide(raster.height, artPerPoint, TILE_ART.down - 2 * margin);
  for (let y = 0; y < raster.height; y += down)
    for (let x = 0; x < raster.width; x += across) {
      const width = Math.min(across, raster.width - x);
      const height = Math.min(down, raster.height - y);
      const grid = artGrid(raster, piece, { x, y, width, height });
      const { box } = grid;
      if (box.x1 <= shares.x0 || box.y1 <= shares.y0 || box.x0 >= shares.x1 || box.y0 >= shares.y1) continue;
      const x0 = Math.max(0, Math.floor(box.x0 * pixels.width) - margin);
      const y0 = Math.max(0, Math.floor(box.y0 * pixels.height) - margin);
      const x1 = Math.min(pixels.width, Math.ceil(box.x1 * pixels.width) + margin);
      const y1 = Math.min(pixels.height, Math.ceil(box.y1 * pixels.height) + margin);
      if (x1 <= x0 || y1 <= y0) continue;
      plans.push({
        x,
        y,
        width,
        height,
        window: { x: x0, y: y0, width: x1 - x0, height: y1 - y0 },
        input: (window, out) => ({
          window: shownPart(window, x0, y0, part, opacity),
          inks,
          ground: piece.ground,
          also,
          regions:
            list.length > 0 ? { list, frame: { scaleX, scaleY, offsetX: x0, offsetY: y0 } } : undefined,
          part: piece.crop && {
            x0: part.x0 - x0,
            y0: part.y0 - y0,
            x1: part.x1 - x0,
            y1: part.y1 - y0,
          },
          grainy: pixels.grainy ?? false,
          coarse,
          grid: gridInWindow(grid, pixels.width, pixels.height, x0, y0),
          out,
          x,
          y,
          width,
          height,
        }),
      });
    }
  return plans;
}

/** A window of a whole picture; the picture itself where it is all of it. */
export function pictureWindow(
  picture: Picture,
  window: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  },
): Picture {
  if (window.width === picture.width && window.height === picture.height) return picture;
  const bytes = picture.data.byteOffset % 4 === 0 ? picture.data : picture.data.slice();
  const from = new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength >> 2);
  const data = new Uint32Array(window.width * window.height);
  for (let row = 0; row < window.height; row++) {
    const start = (window.y + row) * (picture.width as number) + window.x;
    data.set(from.subarray(start, start + window.width), row * window.width);
  }
  return { width: window.width, height: window.height, data: new Uint8Array(data.buffer) };
}

/** Empty masks of the face's size, one an ink. */
export const blankSet = (raster: FaceRaster, inks: number, shared: boolean): Mask[] =>
  Array.from({ length: inks }, () => blankMask(raster.width, raster.height, shared));

/** Lays a piece over those beneath: where it has ink, only its own ink shows. Changes `below`. */
export function layOver(below: readonly Mask[], piece: readonly Mask[]): void {
  const first = piece[0];
  if (!first) return;
  const any = blankMask(first.width, first.height);
  for (const mask of piece) union(any, mask, any);
  below.forEach((mask, i) => {
    subtract(mask, any, mask);
    union(mask, piece[i] as Mask, mask);
  });
}
