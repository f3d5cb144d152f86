import { pressTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import type { Calculation } from './calculation.ts';
import { badSection, FLAT_RADIUS_FORMULA, RADIUS_FORMULA, type Section, sectionArc } from './section.ts';

export interface SqueegeeInput extends Section {
  readonly blade: Mm;
  /** Equal plies the handle is laminated from. */
  readonly plies: number;
  /** mm the edge of a squeegee at hand rises over this blade; absent: none at hand. */
  readonly haveRise?: Mm;
}

export interface CurvedSqueegee {
  /** mm, the radius the edge must have; null: straight. */
  readonly radius: Mm | null;
  /** mm from the edge's middle to the line between its ends. */
  readonly rise: Mm;
  /** mm along the curved edge. */
  readonly edgeLength: Mm;
  /** A dome is met by a concave edge, a bowl by a convex one. */
  readonly edge: 'concave' | 'convex' | 'straight';
  /** mm at the blade's ends under the squeegee at hand; negative: its ends touch first. null: none at hand. */
  readonly endGap: Mm | null;
  /** mm, radius of the form to bend the handle on; null: straight. */
  readonly formRadius: Mm | null;
}

/** The squeegee that fits a face, and the form its laminated handle is bent on so that it springs back to fit. */
export function curvedSqueegee(input: SqueegeeInput): Outcome<Calculation<CurvedSqueegee>> {
  const { face, width, blade, plies, haveRise } = input;
  const bad = badSection(input);
  if (bad) return bad;
  if (!(blade > 0 && blade <= width)) return pressTrouble.bladeWiderThanDeck(blade, width);
  if (!(Number.isInteger(plies) && plies >= 2)) return pressTrouble.tooFewPlies(plies);
  if (haveRise !== undefined && !Number.isFinite(haveRise)) return pressTrouble.riseNoLength();
  const arc = sectionArc(input);
  const rise = arc.riseAt(blade / 2);
  const form = 1 - 1 / (plies * plies);
  return done({
    result: {
      radius: arc.radius,
      rise,
      edgeLength: 2 * arc.lengthTo(blade / 2),
      edge: rise === 0 ? 'straight' : face === 'bottom' ? 'concave' : 'convex',
      endGap: haveRise === undefined ? null : rise - haveRise,
      formRadius: arc.radius === null ? null : arc.radius * form,
    },
    formula: [
      input.flatWidth ? FLAT_RADIUS_FORMULA : RADIUS_FORMULA,
      'rise = ρ − √(ρ² − b²/4)',
      'gap at the ends = rise − rise at hand',
      'form radius = ρ·(1 − 1/n²)',
    ].join('; '),
    assumptions: [
      'Spring back from beam theory: n equal plies bent loose, glued, and let go lose 1/n² of their curvature; the glue does not creep.',
      'The edge is rigid; a soft blade forgives part of the gap.',
    ],
  });
}
