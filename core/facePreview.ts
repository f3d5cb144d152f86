import { type Face, holesOnSurface } from './deck/index.ts';
import { reachOf } from './faceGrowth.ts';
import { deckMask, type FaceRaster, faceRaster, printableMask } from './faceRaster.ts';
import { finishFace } from './finishFace.ts';
import { DEFAULT_HALFTONE, isToned, type Job } from './job/index.ts';
import { onBaseOf, printAll } from './printInk.ts';
import { composePulls, shiftPlane } from './proof/index.ts';
import { blankMask, downsample, fillRings, type Mask, type Picture, type Plane } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { blankSet, layOver, pictureWindow, planTiles } from './separateFace.ts';
import { separateTile } from './separateTile.ts';
import { blankTones, toneMasks } from './toneFace.ts';
import { inkScreen, LEAST_CELL, tonePlan } from './tonePlan.ts';
import { toneTile } from './toneTasks.ts';
import { randomStream } from './trap/index.ts';
import { type Box, badInput, done, type Outcome, pxPerMm, type Ring } from './units/index.ts';

/** A face's separations and prints along the wood, inks in pull order. */
export interface FacePreview {
  /** Surface mm; row 0 is the top. */
  readonly box: Box;
  readonly width: number;
  readonly height: number;
  readonly dpi: number;
  readonly separations: readonly Mask[];
  /** With traps and base; the separations themselves where traps were not asked for. */
  readonly prints: readonly Mask[];
  readonly deck: Mask;
  readonly holes: Mask;
}

/** The methods a face can be separated by so far. */
export function refuseMethod(job: Job, face: Face): Outcome<null> {
  const { method } = job.faces[face];
  if (method !== 'layered') return done(null);
  return badInput(
    `The ${face} is set to be separated by “${method}”, which this version can not do yet.`,
    'Set its method to spot, index or halftone.',
  );
}

/** Films need dots of the ruling that is asked for, and not the grain that may stand for them in a proof. */
export function refuseScreen(job: Job, face: Face, dpi: number): Outcome<null> {
  const settings = job.faces[face];
  if (settings.method !== 'halftone' || inkScreen(settings, 0, dpi)) return done(null);
  const { lpi } = settings.halftone ?? DEFAULT_HALFTONE;
  return badInput(
    `A screen of ${lpi} lines an inch has no room for dots at ${dpi} dpi.`,
    `Choose at most ${Math.floor(dpi / LEAST_CELL)} lines an inch, or a finer printer.`,
  );
}

/** The deck's shape and its holes on a grid. */
export function deckAndHoles(raster: FaceRaster, job: Job): { deck: Mask; holes: Mask } {
  const scale = pxPerMm(raster.dpi);
  const top = raster.box.y + raster.box.height;
  const radius = (job.deck.holes.diameter / 2) * scale;
  const rings: Ring[] = holesOnSurface(job.deck, raster.face).map(({ s, t }) => {
    const at = raster.fromSurface(s as number, t as number);
    const [cx, cy] = [(at.x - raster.box.x) * scale, (top - at.y) * scale];
    return Array.from({ length: 32 }, (_, i) => {
      const turn = (i * Math.PI) / 16;
      return [cx + radius * Math.cos(turn), cy + radius * Math.sin(turn)] as const;
    });
  });
  return {
    deck: deckMask(raster, job.deck),
    holes: fillRings(blankMask(raster.width, raster.height), rings),
  };
}

/**
 * A face at screen resolution from decoded pictures (by hash, at any size), in one go and without workers: for the
 * window's own worker. Pieces whose picture is not there yet are left out.
 */
export function facePreview(input: PreviewInput): Outcome<FacePreview> {
  const { job, face, dpi } = input;
  const can = refuseMethod(job, face);
  if (!can.ok) return can;
  const settings = job.faces[face];
  const raster = faceRaster(job.deck, face, dpi, { kind: 'surface' });
  const { box, width, height } = raster;
  const made = isToned(settings) ? tonedPreview(input, raster) : spotPreview(input, raster);
  return done({ box, width, height, dpi, ...made, ...deckAndHoles(raster, job) });
}

interface PreviewInput {
  readonly job: Job;
  readonly face: Face;
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly dpi: number;
  readonly traps: boolean;
}
type Inked = Pick<FacePreview, 'separations' | 'prints'>;

function tonedPreview({ job, face, pictures }: PreviewInput, raster: FaceRaster): Inked {
  const settings = job.faces[face];
  const plan = tonePlan(job, raster);
  const tones = blankTones(plan.raster, false);
  for (const piece of settings.art) {
    const picture = pictures.get(piece.hash);
    if (!picture || piece.hidden) continue;
    for (const tile of planTiles(
      plan.raster,
      settings,
      piece,
      picture as { width: number; height: number },
    )) {
      const { grid, ground, x, y, width, height } = tile.input(picture, []);
      const window = pictureWindow(picture, tile.window);
      toneTile({ window, ground, grid, x, y, width, height, out: tones });
    }
  }
  return toneMasks(job, raster, plan, tones, printableMask(raster, job, reachOf(job, face)));
}

function spotPreview({ job, face, pictures, dpi, traps }: PreviewInput, raster: FaceRaster): Inked {
  const settings = job.faces[face];
  const separations = blankSet(raster, settings.inks.length, false);
  let laid = 0;
  for (const piece of settings.art) {
    const picture = pictures.get(piece.hash);
    if (!picture || piece.hidden || settings.inks.length === 0) continue;
    const out = laid++ === 0 ? separations : blankSet(raster, settings.inks.length, false);
    const { width, height } = picture as { width: number; height: number };
    const grainy = piece.mediaType !== 'image/svg+xml' && isGrainy(picture);
    for (const tile of planTiles(raster, settings, piece, { width, height, grainy }))
      separateTile(tile.input(pictureWindow(picture, tile.window), out));
    if (out !== separations) layOver(separations, out);
  }
  finishFace(
    separations,
    printableMask(raster, job, reachOf(job, face)),
    settings.smallest * pxPerMm(dpi) ** 2,
  );
  return { separations, prints: traps ? printAll(separations, settings, dpi) : separations };
}

/**
 * The printed face on one veneer in one colourway. `reduce` averages that many points into one, for a smooth picture.
 * With `misregisterMm` each pull after the first wanders by up to that much, and turns a little, by `seed`.
 */
export function faceProof(input: {
  readonly job: Job;
  readonly face: Face;
  readonly preview: FacePreview;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly reduce?: number;
  readonly misregisterMm?: number;
  readonly seed?: number;
}): Picture {
  const { job, face, preview } = input;
  const reduce = input.reduce ?? 1;
  const veneer = job.veneers.find((v) => v.id === input.veneerId) ?? job.veneers[0];
  const colours = job.colourways.find((c) => c.id === input.colourwayId)?.colours ?? {};
  const { inks } = job.faces[face];
  const baseWanted = inks.some((ink) => onBaseOf(ink, veneer?.id ?? ''));
  const random = randomStream(input.seed ?? 1);
  const wander = (input.misregisterMm ?? 0) * pxPerMm(preview.dpi / reduce);
  const pulls = inks.flatMap((ink, i) => {
    const print = ink.role === 'base' && !baseWanted ? preview.separations[i] : preview.prints[i];
    if (!print) return [];
    let plane: Plane = downsample(print, reduce);
    if (wander > 0) {
      const length = wander * Math.sqrt(random());
      const way = 2 * Math.PI * random();
      // A turn that moves the deck's ends by up to the same distance.
      const turn = ((2 * random() - 1) * wander) / ((plane.width as number) / 2);
      if (i > 0) plane = shiftPlane(plane, length * Math.cos(way), length * Math.sin(way), turn);
    }
    return [{ plane, hex: colours[ink.id]?.hex ?? ink.hex, opacity: ink.opacity, kind: ink.kind }];
  });
  const deck = downsample(preview.deck, reduce);
  return composePulls({
    width: deck.width,
    height: deck.height,
    veneerHex: veneer?.hex ?? '#dcb98a',
    deck,
    pulls,
    holes: downsample(preview.holes, reduce),
  });
}
