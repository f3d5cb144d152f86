import type { FaceJob, Ink } from './job/index.ts';
import type { Mask } from './raster/index.ts';
import { baseMask, type PairRule, trapInk, trapPairs } from './trap/index.ts';
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
): Mask => trapInk(separations, ink, rulesOf(face), dpi, null, abort);

/** What a base prints: its own white with its traps, and a choked bed under the prints of the inks that need it. */
export function printBase(
  separations: readonly Mask[],
  covered: readonly Mask[],
  ink: number,
  face: FaceJob,
  dpi: number,
  abort?: Abort,
): Mask {
  return baseMask(
    {
      own: trapInk(separations, ink, rulesOf(face), dpi, null, abort),
      covered,
      chokePx: toPx(face.traps.choke, dpi),
      narrowestPx: toPx(face.traps.narrowestLine, dpi),
    },
    abort,
  );
}

/** Every ink's print, in pull order. */
export function printAll(separations: readonly Mask[], face: FaceJob, dpi: number): Mask[] {
  const colours = face.inks.map((ink, i) =>
    ink.role === 'base' ? null : printColour(separations, i, face, dpi),
  );
  const covered = colours.filter((mask, i): mask is Mask => mask !== null && onBase(face.inks[i] as Ink));
  return colours.map((mask, i) => mask ?? printBase(separations, covered, i, face, dpi));
}
