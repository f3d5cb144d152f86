import { labOfHex } from '../colour/index.ts';
import type { FaceJob, Ink, Job } from '../job/index.ts';

/** The place of the face's base in the pull order, or -1. */
export const baseOf = (face: FaceJob): number => face.inks.findIndex((ink) => ink.role === 'base');

/** Whether the ink asks for the base on this veneer. */
export const asksBase = (ink: Ink, veneerId: string): boolean =>
  ink.needsBase === 'all' || ink.needsBase.includes(veneerId);

/** Whether the ink asks for the base on any veneer. */
export const everAsksBase = (ink: Ink): boolean => ink.needsBase === 'all' || ink.needsBase.length > 0;

/**
 * Whether the base really lies under ink `place` on this veneer: its one film has a bed under every ink that asks for it anywhere,
 * and is pulled where any ink asks for it.
 */
export function liesOnBase(face: FaceJob, place: number, veneerId: string): boolean {
  const base = baseOf(face);
  const ink = face.inks[place];
  if (base < 0 || base >= place || ink === undefined || ink.role === 'base' || !everAsksBase(ink))
    return false;
  return face.inks.some((other) => other.role === 'colour' && asksBase(other, veneerId));
}

/** Below this share one pass lets the wood through so that its colour counts. Common practice, no source. */
const SHEER = 0.6;

/** Whether what lies under it decides how the ink looks. */
export const seesThrough = (ink: Ink): boolean =>
  ink.kind === 'transparent' || ink.kind === 'pearlescent' || (ink.kind !== 'clear' && ink.opacity < SHEER);

/** CIE L*; wood darker than this swallows a transparent ink. Common practice, no source. */
const DARK = 50;

/** Whether the veneer of this id is dark. */
export const swallows = (job: Job, veneerId: string): boolean =>
  job.veneers.some(({ id, hex }) => id === veneerId && labOfHex(hex).l < DARK);
