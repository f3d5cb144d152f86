import type { Face } from './deck/index.ts';
import { deckAndHoles, type FacePreview, refuseMethod } from './facePreview.ts';
import { type FaceRaster, faceRaster } from './faceRaster.ts';
import { inkFace } from './inkFace.ts';
import { type FaceJob, isToned, type Job } from './job/index.ts';
import { crop, type Mask, type Picture } from './raster/index.ts';
import { toneFactor } from './tonePlan.ts';
import { type Box, done, type Outcome, pxPerMm } from './units/index.ts';

/** mm beyond the traps that are worked out too, so that specks and thin parts at the rim are seen whole. */
const ROOM = 1.5;
/** Index dots before the window from which errors are handed on: farther ones are lost among them. */
const DOTS_BEFORE = 24;

/** mm around a window that what is printed in it may come from. */
const roomOf = ({ traps, inks }: FaceJob): number =>
  Math.max(traps.width, ...traps.pairs.map((p) => p.width ?? 0)) +
  traps.choke +
  traps.narrowestLine +
  Math.max(0, ...inks.map((ink) => ink.gain ?? 0)) +
  ROOM;

/**
 * A small window of a face at film resolution, with traps and base, as `facePreview` makes the whole. `window` in surface
 * mm; the result's box is the window widened to whole points. Traps come from ink up to their width away, so that a wider
 * window is worked out and then cut; a speck that reaches into it from further off may be judged by the part seen alone.
 * Screens and even grain fall as on the whole face; diffused dots have its grain but not each its place.
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
  const can = refuseMethod(job, face);
  if (!can.ok) return can;
  const settings = job.faces[face];
  const scale = pxPerMm(dpi);
  const left = Math.floor(window.x * scale);
  const bottom = Math.floor(window.y * scale);
  const width = Math.ceil((window.x + window.width) * scale) - left;
  const height = Math.ceil((window.y + window.height) * scale) - bottom;
  const whole = faceRaster(job.deck, face, dpi, { kind: 'surface' });
  // The window begins on a dot, and dots are handed on from dots before them.
  const dot = isToned(settings) || settings.method === 'layered' ? toneFactor(settings, dpi) : 1;
  const least = Math.max(roomOf(settings) * scale, settings.method === 'index' ? DOTS_BEFORE * dot : 2 * dot);
  const [wholeLeft, wholeTop] = [
    Math.round(whole.box.x * scale),
    Math.round((whole.box.y + whole.box.height) * scale),
  ];
  const onDots = (start: number) => Math.floor((start - least) / dot) * dot;
  const offset = { x: onDots(left - wholeLeft), y: onDots(wholeTop - bottom - height) };
  const before = { x: left - wholeLeft - offset.x, y: wholeTop - bottom - height - offset.y };
  const room = Math.ceil(least);
  const size = { width: before.x + width + room, height: before.y + height + room };
  const top = wholeTop - offset.y;
  const raster: FaceRaster = {
    ...whole,
    ...size,
    offset,
    box: {
      x: (wholeLeft + offset.x) / scale,
      y: (top - size.height) / scale,
      width: size.width / scale,
      height: size.height / scale,
    },
  };
  const { separations, prints } = inkFace({
    job,
    pictures,
    raster,
    traps: true,
    film: input.film ?? false,
  });
  const { deck, holes } = deckAndHoles(raster, job);
  const cut = (mask: Mask) => crop(mask, before.x, before.y, width, height);
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
