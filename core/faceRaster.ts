import {
  type Deck,
  type Face,
  type FilmMap,
  makeFilmMap,
  makeSurface,
  outlineOnSurface,
  printableRings,
  type Surface,
} from './deck/index.ts';
import { type Art, type Job, partOf, wholeSize } from './job/index.ts';
import { blankMask, fillRings, type Mask, type WarpGrid } from './raster/index.ts';
import { type Box, pxPerMm, type Ring } from './units/index.ts';

/**
 * The pixel grid that all inks of one face share. Row 0 is at the top (largest v or t). `film` grids lie in film space
 * (flattened, corrected for mesh growth); `surface` grids lie along the wood, for proofs and the board.
 */
export interface FaceRaster {
  readonly face: Face;
  readonly space: 'film' | 'surface';
  readonly dpi: number;
  readonly box: Box;
  readonly width: number;
  readonly height: number;
  /** Points its corner lies right of and below the whole face's, so that dots fall alike; left out: it is the whole face. */
  readonly offset?: { readonly x: number; readonly y: number };
  /** A point of the grid's space, mm, to the surface. */
  readonly toSurface: (x: number, y: number) => { readonly s: number; readonly t: number };
  readonly fromSurface: (s: number, t: number) => { readonly x: number; readonly y: number };
  readonly surface: Surface;
}

/** Whose points a grid's are, and for films how the board is flattened and its growth undone. */
export type RasterSpace =
  | { readonly kind: 'surface' }
  | {
      readonly kind: 'film';
      readonly development: 'balanced' | 'centreline';
      readonly growth: { along: number; across: number };
      /** mm, the face's own: `balanced` shares its error over the width inside it. */
      readonly railMargin?: number;
    };

/** The grid that just holds the deck's outline, its origin on a pixel corner so that all faces and dpi align. */
export function faceRaster(deck: Deck, face: Face, dpi: number, space: RasterSpace): FaceRaster {
  const surface = makeSurface(deck, face);
  const map: FilmMap | null = space.kind === 'film' ? makeFilmMap(deck, face, space) : null;
  const toSurface = (x: number, y: number) => (map ? map.toSurface({ u: x, v: y }) : { s: x, t: y });
  const fromSurface = (s: number, t: number) => {
    if (!map) return { x: s, y: t };
    const film = map.toFilm({ s, t });
    return { x: film.u, y: film.v };
  };
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [s, t] of outlineOnSurface(deck, face)) {
    const p = fromSurface(s, t);
    x0 = Math.min(x0, p.x);
    y0 = Math.min(y0, p.y);
    x1 = Math.max(x1, p.x);
    y1 = Math.max(y1, p.y);
  }
  const scale = pxPerMm(dpi);
  const left = Math.floor(x0 * scale);
  const bottom = Math.floor(y0 * scale);
  const width = Math.ceil(x1 * scale) - left;
  const height = Math.ceil(y1 * scale) - bottom;
  const box = { x: left / scale, y: bottom / scale, width: width / scale, height: height / scale };
  return { face, space: space.kind, dpi, box, width, height, toSurface, fromSurface, surface };
}

/** Rings on the surface as pixels of the grid: x to the right, y down. */
export function ringsToPixels(raster: FaceRaster, rings: readonly Ring[]): Ring[] {
  const scale = pxPerMm(raster.dpi);
  const top = raster.box.y + raster.box.height;
  return rings.map((ring) =>
    ring.map(([s, t]) => {
      const p = raster.fromSurface(s, t);
      return [(p.x - raster.box.x) * scale, (top - p.y) * scale] as const;
    }),
  );
}

/** Where ink may go. */
export function printableMask(
  raster: FaceRaster,
  job: Pick<Job, 'deck' | 'faces'>,
  reach: { nose: number; tail: number } | null,
  shared = false,
): Mask {
  const { railMargin, clearHoles } = job.faces[raster.face];
  const rings = printableRings(job.deck, raster.face, { railMargin, clearHoles, reach });
  return fillRings(blankMask(raster.width, raster.height, shared), ringsToPixels(raster, rings));
}

/** The whole face inside its outline. */
export function deckMask(raster: FaceRaster, deck: Deck): Mask {
  return fillRings(
    blankMask(raster.width, raster.height),
    ringsToPixels(raster, [outlineOnSurface(deck, raster.face)]),
  );
}

/** A point in the art's wrap space, mm, to fractions of the art: 0, 0 is its top left corner, 1, 1 its bottom right. */
export function placementInverse(art: Art): (x: number, y: number, out: Float64Array) => void {
  const turn = (art.rotationDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const flip = art.mirror ? -1 : 1;
  const { x0, y0, x1, y1 } = partOf(art);
  // What is left of cropped art fills the piece; the shares are of the whole art.
  const [midX, midY] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const whole = wholeSize(art);
  return (x, y, out) => {
    const dx = x - art.x;
    const dy = y - art.y;
    out[0] = (flip * (cos * dx + sin * dy)) / whole.width + midX;
    out[1] = midY - (cos * dy - sin * dx) / whole.height;
  };
}

/** Millimetres between tabulated points of the wrap: the bend's curvature keeps the error between them under 0.02 mm. */
const GRID_MM = 3;

/** Where the nodes of a tile's grid land in the art, as fractions of its width and height; and the box of those. */
export interface ArtGrid {
  readonly step: number;
  readonly cols: number;
  readonly rows: number;
  readonly fractions: Float64Array;
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
}

/** The grid in pixels of a window of the art drawn at `width` × `height`; the window's corner is at (x0, y0). */
export function gridInWindow(grid: ArtGrid, width: number, height: number, x0: number, y0: number): WarpGrid {
  const xy = new Float32Array(grid.fractions.length);
  for (let i = 0; i < xy.length; i += 2) {
    xy[i] = (grid.fractions[i] as number) * width - x0;
    xy[i + 1] = (grid.fractions[i + 1] as number) * height - y0;
  }
  return { step: grid.step, cols: grid.cols, rows: grid.rows, xy };
}

/**
 * The inverse map of one tile of the grid: nodes every `step` pixels from the tile's top left corner, each the place in
 * the art (as fractions of its size) that lands there. Also the box of those fractions.
 */
export function artGrid(
  raster: FaceRaster,
  art: Art,
  tile: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): ArtGrid {
  const scale = pxPerMm(raster.dpi);
  const step = 2 ** Math.max(2, Math.floor(Math.log2(GRID_MM * scale)));
  const cols = Math.ceil(tile.width / step) + 1;
  const rows = Math.ceil(tile.height / step) + 1;
  const fractions = new Float64Array(cols * rows * 2);
  const inverse = placementInverse(art);
  const at = new Float64Array(2);
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  const top = raster.box.y + raster.box.height;
  for (let r = 0, i = 0; r < rows; r++) {
    const y = top - (tile.y + r * step) / scale;
    for (let c = 0; c < cols; c++, i += 2) {
      const { s, t } = raster.toSurface(raster.box.x + (tile.x + c * step) / scale, y);
      if (art.wrap === 'plan') {
        const p = raster.surface.toPlan({ s, t });
        inverse(p.x, p.y, at);
      } else inverse(s, t, at);
      const fx = at[0] as number;
      const fy = at[1] as number;
      fractions[i] = fx;
      fractions[i + 1] = fy;
      if (fx < box.x0) box.x0 = fx;
      if (fy < box.y0) box.y0 = fy;
      if (fx > box.x1) box.x1 = fx;
      if (fy > box.y1) box.y1 = fy;
    }
  }
  return { step, cols, rows, fractions, box };
}
