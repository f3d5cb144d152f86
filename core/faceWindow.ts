import type { Face } from './deck/index.ts';
import { reachOf } from './faceGrowth.ts';
import { deckAndHoles, type FacePreview } from './facePreview.ts';
import { type FaceRaster, faceRaster, printableMask } from './faceRaster.ts';
import { finishFace } from './finishFace.ts';
import type { Job } from './job/index.ts';
import { printAll } from './printInk.ts';
import { crop, type Picture } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { blankSet, layOver, pictureWindow, planTiles } from './separateFace.ts';
import { separateTile } from './separateTile.ts';
import { type Box, badInput, done, type Outcome, pxPerMm } from './units/index.ts';

/** mm beyond the traps that are worked out too, so that specks and thin parts at the rim are seen whole. */
const ROOM = 1.5;

/**
 * A small window of a face at film resolution, with traps and base, as `facePreview` makes the whole. `window` in surface
 * mm; the result's box is the window widened to whole points. Traps come from ink up to their width away, so that a wider
 * window is worked out and then cut; a speck that reaches into it from further off may be judged by the part seen alone.
 */
export function faceWindow(input: {
  readonly job: Job;
  readonly face: Face;
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly dpi: number;
  readonly window: Box;
  /** Prints as the films have them rather than as they come out on the wood. */
  readonly film?: boolean;
}): Outcome<FacePreview> {
  const { job, face, pictures, dpi, window } = input;
  const settings = job.faces[face];
  if (settings.method !== 'spot')
    return badInput(
      `The loupe looks at spot separations; the ${face} is separated by “${settings.method}”.`,
      'Look at its dots in the film itself.',
    );
  const scale = pxPerMm(dpi);
  const widest = Math.max(settings.traps.width, ...settings.traps.pairs.map((p) => p.width ?? 0));
  const gain = Math.max(0, ...settings.inks.map((ink) => ink.gain ?? 0));
  const room = Math.ceil(
    (widest + settings.traps.choke + settings.traps.narrowestLine + gain + ROOM) * scale,
  );
  const left = Math.floor(window.x * scale);
  const bottom = Math.floor(window.y * scale);
  const width = Math.ceil((window.x + window.width) * scale) - left;
  const height = Math.ceil((window.y + window.height) * scale) - bottom;
  const whole = faceRaster(job.deck, face, dpi, { kind: 'surface' });
  const raster: FaceRaster = {
    ...whole,
    width: width + 2 * room,
    height: height + 2 * room,
    box: {
      x: (left - room) / scale,
      y: (bottom - room) / scale,
      width: (width + 2 * room) / scale,
      height: (height + 2 * room) / scale,
    },
  };
  const inks = settings.inks.length;
  const separations = blankSet(raster, inks, false);
  let laid = 0;
  for (const piece of settings.art) {
    const picture = pictures.get(piece.hash);
    if (!picture || piece.hidden || inks === 0) continue;
    const out = laid++ === 0 ? separations : blankSet(raster, inks, false);
    const { width: wide, height: high } = picture as { width: number; height: number };
    const grainy = piece.mediaType !== 'image/svg+xml' && isGrainy(picture);
    for (const tile of planTiles(raster, settings, piece, { width: wide, height: high, grainy }))
      separateTile(tile.input(pictureWindow(picture, tile.window), out));
    if (out !== separations) layOver(separations, out);
  }
  finishFace(separations, printableMask(raster, job, reachOf(job, face)), settings.smallest * scale ** 2);
  const prints = printAll(separations, settings, dpi, input.film);
  const { deck, holes } = deckAndHoles(raster, job);
  const cut = (mask: (typeof prints)[number]) => crop(mask, room, room, width, height);
  return done({
    box: { x: left / scale, y: bottom / scale, width: width / scale, height: height / scale },
    width,
    height,
    dpi,
    separations: separations.map(cut),
    prints: prints.map(cut),
    deck: cut(deck),
    holes: cut(holes),
  });
}
