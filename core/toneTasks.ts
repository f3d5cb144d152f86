import { luminanceOfLinear } from './colour/index.ts';
import type { FaceJob } from './job/index.ts';
import {
  blankMask,
  blueNoiseTile,
  enlargeMask,
  errorDiffuseMixtures,
  type Mask,
  type Picture,
  type Plane,
  screenEnlarged,
  type ThresholdTile,
  thresholdShares,
  tileAt,
  type WarpGrid,
} from './raster/index.ts';
import {
  type HandTones,
  type LayerTakes,
  layerTones,
  screenedShares,
  type TonePalette,
  type UnmixTable,
  unmixPicture,
  unmixTable,
  warpTonesOver,
  withHand,
  withoutGround,
  withoutLines,
} from './separate/index.ts';
import { type Part, shownPart } from './shownPart.ts';
import { baseMask } from './trap/index.ts';
import { toPx } from './units/index.ts';

/** One tile of a face's tones and the window of the art that lands on it; plain data, so that a worker can take it. */
export interface ToneTileInput {
  readonly window: Picture;
  readonly ground: string | null;
  /** What a hand has changed on the window. */
  readonly hand?: HandTones | undefined;
  /** See `TileInput`. */
  readonly part?: Part | undefined;
  /** Line work that other films print, by its colours in the art; tones go on under it for `under` points of the window. */
  readonly lines?: { readonly hexes: readonly string[]; readonly under: number } | undefined;
  /** A layer of one ink: its tones are how opaque the result is. */
  readonly takes?: LayerTakes | undefined;
  /** In pixels of the window. */
  readonly grid: WarpGrid;
  /** The tones of the whole face, which the art is laid over. */
  readonly out: Picture;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Lays the window over the face's tones. Tiles share no point, so that several threads may write the same picture. */
export function toneTile(input: ToneTileInput): void {
  const { window, ground, hand, part, lines, takes, grid, out, x, y, width, height } = input;
  let art = ground === null ? window : withoutGround(window, ground);
  if (hand) art = withHand(art, hand);
  if (hand && part) art = shownPart(art, 0, 0, part, 1);
  if (takes) art = layerTones(art, takes);
  if (lines) art = withoutLines(art, lines.hexes, lines.under);
  warpTonesOver(art, grid, out, x, y, width, height);
}

let lastTable: { readonly key: string; readonly table: UnmixTable } | null = null;

/** The palette's table. Its thousands of mixtures take longer than a face at screen size: the last one is kept. */
function tableOf(palette: TonePalette): UnmixTable {
  const key = JSON.stringify(palette);
  if (lastTable?.key !== key) lastTable = { key, table: unmixTable(palette) };
  return lastTable.table;
}

export interface IndexInput {
  readonly tones: Picture;
  readonly palette: TonePalette;
  readonly factor: number;
  /** One mask an ink of the palette. */
  readonly out: readonly Mask[];
  /** Dots by an even grain, its corner as many dots right of and below the tones'; left out: by diffusion. */
  readonly grain?: { readonly x: number; readonly y: number } | undefined;
}

/** Dots of single inks, each `factor` × `factor` points of the masks. */
export function indexFace({ tones, palette, factor, out, grain }: IndexInput): void {
  const { planes, width, height } = unmixPicture(tones, tableOf(palette));
  const light = [palette.bare, ...palette.inks].map(luminanceOfLinear);
  const order = light.map((_, k) => k).sort((a, b) => light[b]! - light[a]! || a - b);
  const dots = grain
    ? thresholdShares(planes, width, height, tileAt(blueNoiseTile(), grain.x, grain.y), order)
    : errorDiffuseMixtures(planes, [palette.bare, ...palette.inks], width, height);
  dots.forEach((mask, i) => {
    enlargeMask(mask, factor, out[i] as Mask);
  });
}

export interface SharesInput {
  readonly tones: Picture;
  readonly palette: TonePalette;
  readonly hides: readonly number[];
}

/** What each ink's screen must cover, one plane an ink, at the tones' size. */
export const toneShares = ({ tones, palette, hides }: SharesInput): Uint8Array[] =>
  screenedShares(unmixPicture(tones, tableOf(palette)), hides);

export interface ScreenInput {
  readonly plane: Plane;
  readonly factor: number;
  readonly tile: ThresholdTile;
  readonly out: Mask;
}

/** One ink's dots. */
export function screenInk({ plane, factor, tile, out }: ScreenInput): void {
  screenEnlarged(plane, factor, tile, out);
}

export interface BedInput {
  /** Where the art is, before the choke. */
  readonly bed: Mask;
  readonly face: FaceJob;
  readonly dpi: number;
  readonly out: Mask;
}

/** What a base beneath shaded art prints: all of the art, choked at its outer edges. */
export function printBed({ bed, face, dpi, out }: BedInput): void {
  const print = baseMask({
    own: blankMask(bed.width, bed.height),
    covered: [bed],
    chokePx: toPx(face.traps.choke, dpi),
    narrowestPx: toPx(face.traps.narrowestLine, dpi),
  });
  out.data.set(print.data);
}

/** How opaque the tones are, as a plane. */
export function alphaOf({ width, height, data }: Picture): Plane {
  const alpha = new Uint8Array(width * height);
  for (let i = 0; i < alpha.length; i++) alpha[i] = data[4 * i + 3] as number;
  return { width, height, data: alpha };
}

/** Half and more is art: the edge of what is drawn, smooth when enlarged. */
export const HALF: ThresholdTile = { width: 1, height: 1, shift: 0, data: Uint8Array.of(128) };
