import { pressTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import type { Calculation } from './calculation.ts';
import { badSection, FLAT_RADIUS_FORMULA, RADIUS_FORMULA, type Section, sectionArc } from './section.ts';

export interface GrowthInput extends Section {
  /** mm of squeegee blade across the deck. */
  readonly blade: Mm;
  /** mm inside the frame, across the deck. */
  readonly frame: Mm;
  /** mm between the mesh and the highest wood: the crown on the bottom, the rails on the top. */
  readonly offContact: Mm;
}

export interface MeshGrowth {
  /** Path over frame less 1: 0.004 is 0.4 %. */
  readonly growth: number;
  /** mm of mesh from one side of the frame to the other while the blade presses it down. */
  readonly path: Mm;
  /** Film length over print length across the deck, 1/(1 + growth). */
  readonly filmScale: number;
  /** mm, this face's radius; null for a flat board. */
  readonly radius: Mm | null;
  /** mm the face rises (or falls) under the blade's ends, and the wood's length under it. */
  readonly bladeRise: Mm;
  readonly bladeArc: Mm;
  /** The mesh bends over the rails on its way to the frame (top only). */
  readonly liesOnRail: boolean;
}

/**
 * How much the mesh grows across the deck when a blade that fits the face presses it down: the length of its path over
 * the inner frame width, less 1.
 */
export function meshGrowth(input: GrowthInput): Outcome<Calculation<MeshGrowth>> {
  const { face, width, blade, frame, offContact } = input;
  const bad = badSection(input);
  if (bad) return bad;
  if (!(blade > 0 && blade <= width)) return pressTrouble.bladeWiderThanDeck(blade, width);
  if (!(frame > width)) return pressTrouble.frameNarrowerThanDeck(frame, width);
  if (!(offContact >= 0 && Number.isFinite(offContact))) return pressTrouble.offContactNoLength();
  const arc = sectionArc(input);
  const bladeRise = arc.riseAt(blade / 2);
  const bladeArc = 2 * arc.lengthTo(blade / 2);
  const side = (frame - blade) / 2;
  let liesOnRail = false;
  let run: number;
  if (face === 'bottom') run = Math.hypot(side, offContact + bladeRise);
  else {
    const rail = arc.riseAt(width / 2);
    const toRail = (width - blade) / 2;
    const climb = rail + offContact - bladeRise;
    liesOnRail = bladeRise + (climb * toRail) / side < rail;
    run = liesOnRail
      ? Math.hypot(toRail, rail - bladeRise) + Math.hypot((frame - width) / 2, offContact)
      : Math.hypot(side, climb);
  }
  const path = bladeArc + 2 * run;
  const growth = path / frame - 1;
  return done({
    result: {
      growth,
      path,
      filmScale: 1 / (1 + growth),
      radius: arc.radius,
      bladeRise,
      bladeArc,
      liesOnRail,
    },
    formula: [
      input.flatWidth ? FLAT_RADIUS_FORMULA : RADIUS_FORMULA,
      'h = ρ − √(ρ² − b²/4), arc = 2ρ·asin(b/2ρ)',
      face === 'bottom'
        ? 'path = arc + 2·√(((F − b)/2)² + (g + h)²)'
        : liesOnRail
          ? 'path = arc + 2·(√(((w − b)/2)² + (h_w − h)²) + √(((F − w)/2)² + g²))'
          : 'path = arc + 2·√(((F − b)/2)² + (h_w + g − h)²)',
      'growth = path/F − 1',
    ].join('; '),
    assumptions: [
      'An estimate: a measured growth from a test print replaces it.',
      'The blade fits the face and lies centred across it.',
      'The mesh stretches evenly over its whole length, without friction; the frame does not give.',
      face === 'bottom'
        ? 'Off-contact is measured over the crown.'
        : 'Off-contact is measured over the rails.',
    ],
  });
}
