import { reachOf } from './faceGrowth.ts';
import { type FaceRaster, printableMask } from './faceRaster.ts';
import { finishFace } from './finishFace.ts';
import { keptInks } from './handInks.ts';
import type { Inked, InkFaceInput } from './inked.ts';
import type { InkMemory, Made } from './inkMemory.ts';
import type { Art, FaceJob, Ink, Job } from './job/index.ts';
import { pictureNumber, pieceCover } from './pieceCover.ts';
import { onBase, printBase, printColour, rulesOf } from './printInk.ts';
import { copyMask, type Mask, type Picture, type SparseCoverage, warpSparse } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { blankSet, layOver, pictureWindow, planTiles } from './separateFace.ts';
import { separateTile } from './separateTile.ts';
import { pxPerMm } from './units/index.ts';

/** Bytes of laid pieces that are worth keeping; beyond that they are laid anew each time. */
const MOST_LAID = 96e6;

/** A spot face from what is kept of its last making. The same as without a memory, but that art is separated whole. */
export function keptSpotFace(input: InkFaceInput, memory: InkMemory, loose: boolean): Inked {
  const { job, raster, pictures, traps } = input;
  const settings = job.faces[raster.face];
  const { inks } = settings;
  const place = placeKey(job, raster);
  const shown = settings.art.flatMap((piece) => {
    const picture = pictures.get(piece.hash);
    return picture && !piece.hidden && inks.length > 0 ? [{ piece, picture }] : [];
  });
  const bytes = shown.length * inks.length * (raster.width * raster.height * 0.125);
  const laid = shown.map(({ piece, picture }) => {
    const { x, y, width, height, rotationDeg, mirror, wrap, regions, crop } = piece;
    const at = [place, x, y, width, height, rotationDeg, mirror, wrap];
    // Regions drawn by hand lie over the coverage, and cropped art has no whole one: both are separated window by window.
    const windowed = regions?.length || crop ? [regions, crop] : null;
    const cover = windowed ? null : pieceCover(memory, piece, picture, settings, loose);
    const takes = inks.map(({ id, matches, hex }) => [id, matches ?? hex]);
    const from = cover?.turn ?? [pictureNumber(picture), takes, piece.ground, settings.handColours, windowed];
    const key = JSON.stringify([from, at]);
    const lay = () =>
      cover
        ? layPiece(raster, settings, piece, picture, cover.value)
        : layWindows(raster, settings, piece, picture);
    // Laid when it is needed: not at all while the separations stand.
    return {
      key,
      masks: () => (bytes <= MOST_LAID ? memory.keep(`laid ${piece.id}`, key, lay).value : lay()),
    };
  });
  const { railMargin, clearHoles, smallest } = settings;
  const reach = reachOf(job, raster.face);
  const separated = memory.keep(
    'separations',
    JSON.stringify([
      place,
      inks.length,
      laid.map(({ key }) => key),
      railMargin,
      clearHoles,
      reach,
      smallest,
      keptInks(settings),
    ]),
    () => {
      const masks = blankSet(raster, inks.length, false);
      for (const [n, piece] of laid.entries()) {
        const own = piece.masks();
        if (n > 0) layOver(masks, own);
        else
          own.forEach((mask, i) => {
            copyMask(mask, masks[i]);
          });
      }
      const smallestPx = smallest * pxPerMm(raster.dpi) ** 2;
      const dropped = finishFace(masks, printableMask(raster, job, reach), smallestPx, keptInks(settings));
      return { masks, dropped };
    },
  );
  // Pieces laid before are kept for the next time one of them moves.
  for (const { piece } of shown) memory.last(`laid ${piece.id}`);
  const { masks: separations, dropped } = separated.value;
  const finished = { value: separations, turn: separated.turn };
  const prints = traps ? keptPrints(finished, settings, raster.dpi, memory) : separations;
  return { separations, prints, dropped };
}

/** What the grid depends on. */
const placeKey = (job: Job, { face, dpi, box }: FaceRaster): string =>
  JSON.stringify([face, dpi, box, job.deck]);

/** One piece brought through the wrap, one mask an ink. */
function layPiece(
  raster: FaceRaster,
  settings: FaceJob,
  piece: Art,
  picture: Picture,
  coverage: SparseCoverage,
): Mask[] {
  const out = blankSet(raster, settings.inks.length, false);
  const { width, height } = picture as { width: number; height: number };
  for (const tile of planTiles(raster, settings, piece, { width, height })) {
    const { grid } = tile.input(picture, out);
    // The plan's grid is in points of its window.
    const xy = grid.xy.map((at, i) => at + (i & 1 ? tile.window.y : tile.window.x));
    const whole = { ...grid, xy };
    warpSparse(coverage, whole, out, tile.x, tile.y, tile.width, tile.height);
  }
  return out;
}

/** The same from the picture itself, a window for each tile. */
function layWindows(raster: FaceRaster, settings: FaceJob, piece: Art, picture: Picture): Mask[] {
  const out = blankSet(raster, settings.inks.length, false);
  const { width, height } = picture as { width: number; height: number };
  const grainy = piece.mediaType !== 'image/svg+xml' && isGrainy(picture);
  for (const tile of planTiles(raster, settings, piece, { width, height, grainy }))
    separateTile(tile.input(pictureWindow(picture, tile.window), out));
  return out;
}

/** Every ink's print, each made again only when the separations or its own rules have changed. */
function keptPrints(
  separated: Made<readonly Mask[]>,
  face: FaceJob,
  dpi: number,
  memory: InkMemory,
): readonly Mask[] {
  const { value: separations, turn } = separated;
  const rules = rulesOf(face).map(({ spreads, under, widthMm }) => [spreads, under, widthMm]);
  const mine = (i: number) => rules.filter(([spreads]) => spreads === i);
  const colours = face.inks.map((ink, i) =>
    ink.role === 'base'
      ? null
      : memory.keep(`print ${i}`, JSON.stringify([turn, mine(i)]), () =>
          printColour(separations, i, face, dpi),
        ),
  );
  const covered = colours.flatMap((made, i) => (made && onBase(face.inks[i] as Ink) ? [made] : []));
  const { choke, narrowestLine } = face.traps;
  return colours.map((made, i) => {
    if (made) return made.value;
    const key = JSON.stringify([turn, mine(i), covered.map((one) => one.turn), choke, narrowestLine]);
    return memory.keep(`print ${i}`, key, () =>
      printBase(
        separations,
        covered.map(({ value }) => value),
        i,
        face,
        dpi,
        false,
      ),
    ).value;
  });
}
