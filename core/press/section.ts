import {
  acrossLength,
  acrossRiseAtPlan,
  arcCurvature,
  type Deck,
  type Face,
  outerCurvature,
} from '../deck/index.ts';
import { deckTrouble, pressTrouble } from '../sentences/index.ts';
import type { Failure, Mm } from '../units/index.ts';

/** A face's section across the deck, measured as a deck is: width and depth on the top. mm. */
export interface Section {
  readonly face: Face;
  readonly width: Mm;
  readonly depth: Mm;
  readonly thickness: Mm;
  /** mm of flat strip in the middle; absent or 0 for a radial concave. */
  readonly flatWidth?: Mm;
}

export const sectionOf = (deck: Deck, face: Face): Section => ({
  face,
  width: deck.width,
  depth: deck.concave.depth,
  thickness: deck.thickness,
  flatWidth: deck.concave.profile === 'flat-centre' ? deck.concave.flatWidth : 0,
});

/** The section's arc: half the flat strip, curvature 1/ρ, and the rise and length along it at a distance across. */
export function sectionArc(section: Section) {
  const flat = (section.flatWidth ?? 0) / 2;
  const top = arcCurvature(section.width / 2 - flat, section.depth);
  const k = section.face === 'top' ? top : outerCurvature(top, section.thickness);
  return {
    flat,
    k,
    /** mm; null for a flat board. */
    radius: k > 0 ? 1 / k : null,
    riseAt: (y: Mm): Mm => acrossRiseAtPlan(y, flat, k),
    lengthTo: (y: Mm): Mm => acrossLength(y, flat, k),
  };
}

const show = (mm: Mm) => `${Math.round(mm * 10) / 10} mm`;

/** Why a section can not be, or null. */
export function badSection(section: Section): Failure | null {
  const { width, depth, thickness } = section;
  const flat = section.flatWidth ?? 0;
  for (const [name, value] of Object.entries({ width, depth, thickness, flat }))
    if (!Number.isFinite(value) || value < 0) return pressTrouble.deckMeasureNoLength(name);
  if (!(width > 0)) return pressTrouble.deckWithoutWidth();
  if (depth > 0 && depth >= (width - flat) / 2)
    return deckTrouble.concaveTooDeep(show(depth), show((width - flat) / 2));
  return null;
}

export const RADIUS_FORMULA = 'ρ = w²/(8d) + d/2 on the top, ρ + T on the bottom';
export const FLAT_RADIUS_FORMULA = 'ρ = a²/(2d) + d/2 on the top with a = (w − f)/2, ρ + T on the bottom';
