import { type Mask, type Picture, type WarpGrid, warpArgmax, warpSparse } from './raster/index.ts';
import {
  type Coverage,
  type HandRegions,
  type HandTones,
  type LayerTakes,
  layerCoverage,
  layRegions,
  lineCoverage,
  NO_REGIONS,
  placeEdges,
  placePlaneEdges,
  type SeparatePalette,
  separateSparse,
  separateWindow,
  type UnplannedTally,
  unplannedTally,
  Workspace,
  withHand,
  withoutGround,
} from './separate/index.ts';
import { bareBeyond, type Part, shownPart } from './shownPart.ts';

/** What a tile is separated for, where it is not all the face's inks: one ink's own layer, or line work of one colour. */
export type OneInk = ({ readonly takes: LayerTakes } | { readonly line: string }) & {
  /** What a hand has changed on shaded art beside the tile's regions. */
  readonly hand?: Pick<HandTones, 'recolour' | 'planes'> | undefined;
};

// One a thread, as the kernels' memory: nothing in it outlives a call.
const space = new Workspace();

/** Lets go of what tiles were separated in: other work of this thread comes next, and wants the memory. */
export const endTiles = (): void => space.clear();

/** One tile of a face's grid and the window of the art that lands on it; plain data, so that a worker can take it. */
export interface TileInput {
  readonly window: Picture;
  readonly inks: readonly { readonly hex: string }[];
  readonly ground: string | null;
  /** Colours given to inks by hand. */
  readonly also?: SeparatePalette['also'];
  /** Regions given to inks by hand, over the window. */
  readonly regions?: HandRegions | undefined;
  /** What is left of cropped art, in points of the window: a hand's regions end there too. Left out: all of it. */
  readonly part?: Part | undefined;
  /** Whether the whole art is compressed or a photograph: told once, so that tiles agree. */
  readonly grainy: boolean;
  /** Whether the art has few points on the deck: see `SeparateOptions`. Left out: no. */
  readonly coarse?: boolean | undefined;
  /** For one ink alone: `out` then holds its mask only. */
  readonly one?: OneInk | undefined;
  /** In pixels of the window. */
  readonly grid: WarpGrid;
  /** One mask an ink, of the whole face. */
  readonly out: readonly Mask[];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function coverageOf({ window, ground, part, regions = NO_REGIONS }: TileInput, one: OneInk): Coverage {
  const { hand } = one;
  if ('line' in one && !hand) return lineCoverage(window, one.line);
  const drawn = ground === null ? window : withoutGround(window, ground);
  const given = hand ? withHand(drawn, { ...hand, regions }) : drawn;
  const art = hand && part ? shownPart(given, 0, 0, part, 1) : given;
  return 'line' in one ? lineCoverage(art, one.line) : layerCoverage(art, one.takes);
}

/**
 * Separates the window and brings its coverage through the wrap into the masks. Tiles start on whole words and share
 * none, so that several threads may write the same masks. Returns the colours no ink is near.
 */
export function separateTile(tile: TileInput): UnplannedTally {
  const unplanned = unplannedTally();
  const { grid, out, x, y, width, height, regions } = tile;
  if (tile.one) {
    const { planes, width: across, height: down } = coverageOf(tile, tile.one);
    placePlaneEdges(planes, across, tile.coarse);
    warpArgmax(planes, across, down, grid, out, x, y, width, height);
    return unplanned;
  }
  const palette = { inks: tile.inks, ground: tile.ground, also: tile.also };
  const { grainy, coarse } = tile;
  const options = { grainy, coarse, unplanned };
  if (regions) {
    const { planes, ...size } = separateWindow(tile.window, palette, options);
    layRegions({ planes, ...size }, regions);
    if (tile.part) bareBeyond(planes, size.width, size.height, tile.part);
    placePlaneEdges(planes, size.width, coarse);
    warpArgmax(planes, size.width, size.height, grid, out, x, y, width, height);
    return unplanned;
  }
  const coverage = placeEdges(separateSparse(tile.window, palette, options, space), coarse);
  warpSparse(coverage, grid, out, x, y, width, height);
  return unplanned;
}
