import type { FaceJob, Halftone, IndexDots } from './schema.ts';

/** Dots that a mesh of 77 threads/cm holds twice over (two openings of 0.13 mm). Common practice, no source. */
export const DEFAULT_INDEX: IndexDots = { dotMm: 0.25 };

/**
 * Lines an inch for the usual mesh of 77 threads/cm (196 an inch) at a little under five threads a line, the careful end of
 * the common advice of four to five (mesh makers' published advice: 3.75 to 5). Elliptical dots join gently at mid tones.
 */
export const DEFAULT_HALFTONE: Halftone = { lpi: 40, dot: 'elliptical' };

/**
 * Degrees for inks in pull order. The first four are the usual set of process angles turned by 7.5° away from the threads
 * (mesh makers' published advice: 7.5, 22.5, 52.5, 82.5); further inks go between, 15° from their neighbours.
 */
const ANGLES = [22.5, 52.5, 82.5, 7.5, 37.5, 67.5] as const;

/** Points across a screen's cell below which it is too coarse to grow a dot in; common practice, no source. */
export const LEAST_CELL = 5;

/** Whether the face's art is shaded: split into tones rather than flat colours. */
export const isToned = (face: Pick<FaceJob, 'method'>): boolean =>
  face.method === 'index' || face.method === 'halftone';

/** Inks (by place) that are cut sharp as line work on a face of tones. A base is no line work. */
export const lineInks = (face: Pick<FaceJob, 'method' | 'inks'>): number[] =>
  isToned(face)
    ? face.inks.flatMap((ink, at) => (ink.split === 'spot' && ink.role === 'colour' ? [at] : []))
    : [];

/** Inks (by place) whose films are screened tones. */
export const screenedInks = (face: Pick<FaceJob, 'method' | 'inks'>): number[] =>
  face.inks.flatMap((ink, at) => {
    const toned =
      face.method === 'halftone'
        ? ink.split !== 'spot'
        : face.method === 'layered' && ink.split === 'halftone';
    return toned && ink.role === 'colour' && ink.kind !== 'clear' ? [at] : [];
  });

/** Whether any film of the face is a screened tone. */
export const screensDots = (face: Pick<FaceJob, 'method' | 'inks'>): boolean => screenedInks(face).length > 0;

/** The screen angle of an ink, degrees anticlockwise from the deck's length, as seen. `ink` is its place in the list. */
export function screenAngle(face: Pick<FaceJob, 'inks' | 'halftone'>, ink: number): number {
  const named = face.halftone?.angles?.[face.inks[ink]?.id ?? ''];
  if (named !== undefined) return named;
  const colours = face.inks.slice(0, ink).filter(({ role }) => role === 'colour').length;
  return ANGLES[colours % ANGLES.length] as number;
}
