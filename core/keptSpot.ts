import { reachOf } from './faceGrowth.ts';
import { type FaceRaster, printableMask } from './faceRaster.ts';
import { type DroppedSpeck, finishFace } from './finishFace.ts';
import { keptInks } from './handInks.ts';
import type { Inked, InkFaceInput } from './inked.ts';
import type { InkMemory, Made } from './inkMemory.ts';
import type { Art, FaceJob, Ink, Job } from './job/index.ts';
import { pictureNumber, pieceCover, placesOf } from './pieceCover.ts';
import { onBase, printBase, printColour, rulesOf } from './printInk.ts';
import { copyMask, type Mask, type Picture, type SparseCoverage, warpSparse } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { blankSet, layOver, pictureWindow, planTiles } from './separateFace.ts';
import { separateTile } from './separateTile.ts';
import { pxPerMm } from './units/index.ts';

/** Bytes of laid pieces that are worth keeping; beyond that they are laid anew each time. */
const MOST_LAID = 96e6;

/** A face's separations, for which inks in which order. */
interface Separated {
  readonly masks: readonly Mask[];
  readonly dropped: readonly DroppedSpeck[];
  readonly ids: readonly string[];
  /** What they were made from, but for the order of the inks. */
  readonly from: string;
}

/** A spot face from what is kept of its last making. The same as without a memory, but that art is separated whole. */
export function keptSpotFace(input: InkFaceInput, memory: InkMemory, loose: boolean): Inked {
  const settings = input.job.faces[input.raster.face];
  const from = madeFrom(input, settings);
  const ids = settings.inks.map(({ id }) => id);
  const known = loose ? memory.last<Separated>('separations') : null;
  const order = known?.value.from === from ? placesOf(known.value.ids, ids) : null;
  const separated =
    known && order ? inOrder(known, order, ids, memory) : separate(input, from, memory, loose);
  // Pieces laid before are kept for the next time one of them moves, and what they were laid from.
  for (const { id, hidden } of settings.art)
    if (!hidden) for (const slot of [`laid ${id}`, `cover ${id}`, `cover ${id} ordered`]) memory.last(slot);
  const { masks: separations, dropped } = separated.value;
  const { traps, raster } = input;
  const prints = traps ? keptPrints(separated, settings, raster.dpi, memory) : separations;
  return { separations, prints, dropped };
}

/** All that separations depend on but the order in which inks are pulled. */
function madeFrom({ job, raster, pictures }: InkFaceInput, settings: FaceJob): string {
  const inks = settings.inks.map(
    ({ id, matches, hex, kept }) => [id, matches ?? hex, kept === true] as const,
  );
  const pieces = settings.art
    .filter((piece) => !piece.hidden)
    .map((piece) => [pictureNumber(pictures.get(piece.hash)), piece]);
  return JSON.stringify([
    placeKey(job, raster),
    [...inks].sort(([a], [b]) => (a < b ? -1 : 1)),
    pieces,
    settings.handColours,
    settings.railMargin,
    settings.clearHoles,
    reachOf(job, raster.face),
    settings.smallest,
  ]);
}

/**
 * Separations made for the same inks, pulled in another order: the same masks. Where two inks cover just as much of a point the
 * earlier has it, so that a few points may be the other's when all is made anew.
 */
function inOrder(
  known: Made<Separated>,
  order: readonly number[],
  ids: readonly string[],
  memory: InkMemory,
): Made<Separated> {
  if (order.every((at, i) => at === i)) return known;
  const turned = memory.keep('separations ordered', JSON.stringify([known.turn, order]), (): Separated => {
    const { masks, dropped, from } = known.value;
    return {
      masks: order.map((at) => masks[at]!),
      dropped: dropped.map((speck) => ({ ...speck, ink: order.indexOf(speck.ink) })),
      ids,
      from,
    };
  });
  // The masks are the known ones: an ink by its name has the print that it had.
  return { value: turned.value, turn: known.turn };
}

/** Separations from the art, or as they were where nothing of theirs has changed. */
function separate(input: InkFaceInput, from: string, memory: InkMemory, loose: boolean): Made<Separated> {
  const { job, raster, pictures } = input;
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
    const art = cover?.turn ?? [pictureNumber(picture), takes, piece.ground, settings.handColours, windowed];
    const key = JSON.stringify([art, at]);
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
  return memory.keep(
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
    (): Separated => {
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
      return { masks, dropped, ids: inks.map(({ id }) => id), from };
    },
  );
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

/** Every ink's print, each made again only when its own separation, what it runs into or its own rules have changed. */
function keptPrints(
  separated: Made<Separated>,
  face: FaceJob,
  dpi: number,
  memory: InkMemory,
): readonly Mask[] {
  const { value, turn } = separated;
  const { masks: separations, ids } = value;
  const rules = rulesOf(face);
  // By name, not by place: an ink that is pulled at another time has the same print where its rules are the same.
  const mine = (i: number) =>
    rules
      .filter(({ spreads }) => spreads === i)
      .map(({ under, widthMm }) => [ids[under], widthMm] as const)
      .sort(([a], [b]) => (a! < b! ? -1 : 1));
  const colours = face.inks.map((ink, i) =>
    ink.role === 'base'
      ? null
      : memory.keep(`print ${ink.id}`, JSON.stringify([turn, mine(i)]), () =>
          printColour(separations, i, face, dpi),
        ),
  );
  const covered = colours.flatMap((made, i) => (made && onBase(face.inks[i] as Ink) ? [made] : []));
  const under = covered.map((one) => one.turn).sort((a, b) => a - b);
  const { choke, narrowestLine } = face.traps;
  return colours.map((made, i) => {
    if (made) return made.value;
    const key = JSON.stringify([turn, mine(i), under, choke, narrowestLine]);
    return memory.keep(`print ${ids[i]}`, key, () =>
      printBase(
        separations,
        covered.map(({ value: print }) => print),
        i,
        face,
        dpi,
        false,
      ),
    ).value;
  });
}
