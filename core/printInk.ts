import type { FaceJob, Ink } from './job/index.ts';
import type { Mask } from './raster/index.ts';
import { type BaseRequest, baseMask, holdOpen, type PairRule, trapInk, trapPairs } from './trap/index.ts';
import { type Abort, toPx } from './units/index.ts';

/** Whether the base prints beneath this ink on any veneer: one base film serves the whole run. */
export const onBase = (ink: Ink): boolean =>
  ink.role === 'colour' && (ink.needsBase === 'all' || ink.needsBase.length > 0);

/** Whether the base prints beneath this ink on this veneer. */
export const onBaseOf = (ink: Ink, veneerId: string): boolean =>
  ink.role === 'colour' && (ink.needsBase === 'all' || ink.needsBase.includes(veneerId));

/** The face's pair table. */
export const rulesOf = (face: FaceJob): PairRule[] => trapPairs(face.inks, face.traps);

/** What a colour prints: its separation and its traps. */
export const printColour = (
  separations: readonly Mask[],
  ink: number,
  face: FaceJob,
  dpi: number,
  abort?: Abort,
  out?: Mask,
): Mask => trapInk(separations, ink, rulesOf(face), dpi, null, abort, out);

/** How a base's bed is choked: on its `film` it stays inside by the base's own gain as well, which the mesh gives back. */
export function bedOf(
  own: Mask,
  covered: readonly Mask[],
  ink: number,
  face: FaceJob,
  dpi: number,
  film: boolean,
): BaseRequest {
  const gain = (film && face.inks[ink]?.gain) || 0;
  return {
    own,
    covered,
    chokePx: toPx(face.traps.choke + gain, dpi),
    narrowestPx: toPx(face.traps.narrowestLine, dpi),
  };
}

/** What a base prints: its own white with its traps, and a choked bed under the prints of the inks that need it. */
export function printBase(
  separations: readonly Mask[],
  covered: readonly Mask[],
  ink: number,
  face: FaceJob,
  dpi: number,
  film: boolean,
  abort?: Abort,
): Mask {
  const own = printColour(separations, ink, face, dpi, abort);
  return baseMask(bedOf(own, covered, ink, face, dpi, film), abort);
}

/** What ink `ink` has on its film so that it prints `print`: drawn in beside bare wood by what the mesh lets it spread. */
export function filmInk(
  separations: readonly Mask[],
  print: Mask,
  ink: number,
  face: FaceJob,
  dpi: number,
  abort?: Abort,
): Mask {
  const gain = face.inks[ink]?.gain ?? 0;
  if (gain === 0) return print;
  return holdOpen(print, separations, toPx(gain, dpi), toPx(face.traps.narrowestLine, dpi), abort);
}

/** Every ink as it prints on the wood, in pull order; `film`: as it is on its film, which differs where the mesh spreads ink. */
export function printAll(
  separations: readonly Mask[],
  face: FaceJob,
  dpi: number,
  film: boolean = false,
): Mask[] {
  const colours = face.inks.map((ink, i) =>
    ink.role === 'base' ? null : printColour(separations, i, face, dpi),
  );
  const covered = colours.filter((mask, i): mask is Mask => mask !== null && onBase(face.inks[i] as Ink));
  const prints = colours.map((mask, i) => mask ?? printBase(separations, covered, i, face, dpi, film));
  return film ? prints.map((print, i) => filmInk(separations, print, i, face, dpi)) : prints;
}
