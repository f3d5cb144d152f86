import { reachOf } from './faceGrowth.ts';
import { printableMask } from './faceRaster.ts';
import { finishFace } from './finishFace.ts';
import { keptInks } from './handInks.ts';
import type { Inked, InkFaceInput } from './inked.ts';
import { type Art, isToned, screenedInks } from './job/index.ts';
import { keptSpotFace } from './keptSpot.ts';
import { type InkLayer, layersOf, solidOnly, tintArea, underBase } from './layers.ts';
import { pictureNumber } from './pieceCover.ts';
import { filmInk, printAll, printBase, printColour } from './printInk.ts';
import { blankMask, intersect, type Mask, type Picture, subtract } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { blankSet, layOver, pictureWindow, planTiles } from './separateFace.ts';
import { type OneInk, separateTile } from './separateTile.ts';
import { blankTones, screenOf, toneMasks } from './toneFace.ts';
import { tonesOf } from './toneFaceMasks.ts';
import { toneColours, toneHand } from './toneHand.ts';
import { type TonePlan, tonePlan } from './tonePlan.ts';
import { alphaOf, screenInk, toneTile } from './toneTasks.ts';
import { pxPerMm } from './units/index.ts';

/**
 * A face's separations and prints by its method, in one go and without workers: what `faceMasks` does in parts. For small
 * rasters: the whole face at screen resolution, or a small window of it at the film's.
 */
export function inkFace(input: InkFaceInput): Inked {
  const settings = input.job.faces[input.raster.face];
  if (isToned(settings)) return tonedFace(input);
  if (settings.method === 'spot' && input.memory && !input.film)
    return keptSpotFace(input, input.memory, input.loose ?? false);
  return settings.method === 'layered' ? layeredFace(input) : spotFace(input);
}

const printableOf = ({ job, raster }: InkFaceInput): Mask =>
  printableMask(raster, job, reachOf(job, raster.face));

/** The picture of a piece that shows, with its size. */
function pictureOf({ pictures }: InkFaceInput, piece: Art) {
  const picture = pictures.get(piece.hash);
  if (!picture || piece.hidden) return null;
  const { width, height } = picture as { width: number; height: number };
  return { picture, width, height };
}

/** Separates one piece for one ink into its mask, over what is there. */
function separateOne(input: InkFaceInput, piece: Art, one: OneInk, out: Mask): void {
  const shown = pictureOf(input, piece);
  if (!shown) return;
  const { job, raster } = input;
  for (const tile of planTiles(raster, job.faces[raster.face], piece, shown))
    separateTile({ ...tile.input(pictureWindow(shown.picture, tile.window), [out]), one });
}

/** Lays a piece's tones over those of the face. */
function addTones(input: InkFaceInput, plan: TonePlan, piece: Art, out: Picture): void {
  const shown = pictureOf(input, piece);
  if (!shown) return;
  const face = input.job.faces[input.raster.face];
  const more = tonesOf(plan, face, piece, shown);
  for (const tile of planTiles(plan.raster, face, piece, shown)) {
    const planned = tile.input(pictureWindow(shown.picture, tile.window), []);
    const { window, grid, ground, part, x, y, width, height } = planned;
    const hand = toneHand(plan, face, planned);
    toneTile({ window, ground, hand, part, grid, x, y, width, height, out, ...more });
  }
}

/** The tones of all pieces, made again only when a piece, its place or the grid has changed. */
function keptTones(input: InkFaceInput, plan: TonePlan): Picture {
  const { job, raster, memory, pictures } = input;
  const { art, traps, inks, handColours } = job.faces[raster.face];
  const make = (): Picture => {
    const tones = blankTones(plan.raster, false);
    for (const piece of art) addTones(input, plan, piece, tones);
    return tones;
  };
  if (!memory) return make();
  const drawn = art.map(({ name: _, ...piece }) => [piece, pictureNumber(pictures.get(piece.hash))]);
  const { face, dpi, box } = raster;
  // What a hand gave to an ink takes that ink's look.
  const byHand = handColours?.length || art.some(({ regions }) => regions?.length);
  const hand = byHand ? [handColours, plan.palette, plan.inks, inks.map(({ id }) => id)] : null;
  const key = JSON.stringify([face, dpi, box, plan.factor, plan.lines, traps, job.deck, drawn, hand]);
  return memory.keep('tones', key, make).value;
}

function tonedFace(input: InkFaceInput): Inked {
  const { job, raster } = input;
  const { art, inks } = job.faces[raster.face];
  const plan = tonePlan(job, raster);
  const hand = toneColours(plan, job.faces[raster.face]);
  const tones = keptTones(input, plan);
  const separations = blankSet(raster, inks.length, false);
  for (const [n, piece] of art.entries()) {
    if (plan.lines.length > 0 && n > 0) {
      const area = blankMask(raster.width, raster.height);
      separateOne(input, piece, { takes: 'alpha', hand }, area);
      for (const { ink } of plan.lines) subtract(separations[ink] as Mask, area, separations[ink] as Mask);
    }
    for (const { ink, hex } of plan.lines)
      separateOne(input, piece, { line: hex, hand }, separations[ink] as Mask);
  }
  return toneMasks(job, raster, plan, tones, printableOf(input), separations);
}

function layeredFace(input: InkFaceInput): Inked {
  const { job, raster, traps, film = false } = input;
  const face = job.faces[raster.face];
  const screened = new Set(screenedInks(face));
  const separations = blankSet(raster, face.inks.length, false);
  const areas = new Map<number, Mask>();
  const layers = layersOf(face);
  for (const { piece, ink } of layers)
    if (!screened.has(ink) && piece.layer)
      separateOne(input, piece, { takes: piece.layer.takes }, separations[ink] as Mask);
  const printable = printableOf(input);
  for (const ink of screened) {
    const area = screenLayers(input, layers, ink, separations[ink] as Mask);
    areas.set(ink, intersect(area, printable, area));
    intersect(separations[ink] as Mask, printable, separations[ink] as Mask);
  }
  const cut = face.inks.flatMap((_, i) => (screened.has(i) ? [] : [i]));
  const kept = keptInks(face);
  const dropped = finishFace(
    cut.map((i) => separations[i] as Mask),
    printable,
    face.smallest * pxPerMm(raster.dpi) ** 2,
    cut.map((i) => kept[i] === true),
  ).map((speck) => ({ ...speck, ink: cut[speck.ink] ?? -1 }));
  if (!traps) return { separations, prints: separations, dropped };
  const solid = solidOnly(face, separations, false);
  const colours = face.inks.map((ink, i) => {
    if (screened.has(i)) return separations[i] as Mask;
    return ink.role === 'base' ? null : printColour(solid, i, face, raster.dpi);
  });
  const covered = underBase(face.inks, colours, areas);
  const prints = colours.map((mask, i) => mask ?? printBase(solid, covered, i, face, raster.dpi, film));
  if (!film) return { separations, prints, dropped };
  return {
    separations,
    dropped,
    prints: prints.map((print, i) => (screened.has(i) ? print : filmInk(solid, print, i, face, raster.dpi))),
  };
}

/** Screens the layers of one ink into `out`; returns where they have any tone. */
function screenLayers(input: InkFaceInput, layers: readonly InkLayer[], ink: number, out: Mask): Mask {
  const { job, raster } = input;
  const plan = tonePlan(job, raster);
  const tones = blankTones(plan.raster, false);
  for (const { piece, ink: of } of layers) if (of === ink) addTones(input, plan, piece, tones);
  const { width, height, data: share } = alphaOf(tones);
  screenInk(screenOf(job, raster, plan.factor, ink, { width, height, share }, ink, out));
  const area = blankMask(raster.width, raster.height);
  screenInk(tintArea(tones, plan.factor, area));
  return area;
}

function spotFace(input: InkFaceInput): Inked {
  const { job, raster, traps, film } = input;
  const settings = job.faces[raster.face];
  const separations = blankSet(raster, settings.inks.length, false);
  let laid = 0;
  for (const piece of settings.art) {
    const shown = pictureOf(input, piece);
    if (!shown || settings.inks.length === 0) continue;
    const out = laid++ === 0 ? separations : blankSet(raster, settings.inks.length, false);
    const grainy = piece.mediaType !== 'image/svg+xml' && isGrainy(shown.picture);
    for (const tile of planTiles(raster, settings, piece, { ...shown, grainy }))
      separateTile(tile.input(pictureWindow(shown.picture, tile.window), out));
    if (out !== separations) layOver(separations, out);
  }
  const smallestPx = settings.smallest * pxPerMm(raster.dpi) ** 2;
  const dropped = finishFace(separations, printableOf(input), smallestPx, keptInks(settings));
  const prints = traps ? printAll(separations, settings, raster.dpi, film) : separations;
  return { separations, prints, dropped };
}
