import type { FaceJob, Ink } from '../job/index.ts';

/** The place of the face's base in the pull order, or -1. */
export const baseOf = (face: FaceJob): number => face.inks.findIndex((ink) => ink.role === 'base');

/** Whether the ink asks for the base on this veneer. */
export const asksBase = (ink: Ink, veneerId: string): boolean =>
  ink.needsBase === 'all' || ink.needsBase.includes(veneerId);

/** Whether the ink asks for the base on any veneer. */
export const everAsksBase = (ink: Ink): boolean => ink.needsBase === 'all' || ink.needsBase.length > 0;

/** Whether the base really lies under ink `place` on this veneer: asked for, there, and pulled before. */
export function liesOnBase(face: FaceJob, place: number, veneerId: string): boolean {
  const base = baseOf(face);
  const ink = face.inks[place];
  return base >= 0 && base < place && ink !== undefined && ink.role !== 'base' && asksBase(ink, veneerId);
}

/** Below this share one pass lets the wood through so that its colour counts. Common practice, no source. */
const SHEER = 0.6;

/** Whether what lies under it decides how the ink looks. */
export const seesThrough = (ink: Ink): boolean =>
  ink.kind === 'transparent' || ink.kind === 'pearlescent' || (ink.kind !== 'clear' && ink.opacity < SHEER);
