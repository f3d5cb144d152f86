import type { FaceJob } from '../job/index.ts';
import { intersect, type Mask } from '../raster/index.ts';
import { type PairRule, trapPairs } from '../trap/index.ts';
import type { FaceFacts } from './input.ts';
import { everAsksBase } from './under.ts';

/** What one neighbour runs into an ink. */
export interface TrapInto {
  readonly rule: PairRule;
  readonly mask: Mask;
}

/**
 * What each neighbour prints on the separation of ink `place` by the pair table, neighbours in pull order. The base beneath
 * an ink that asks for it is no trap and is left out, and so is a neighbour that keeps butted.
 */
export function trapsInto(face: FaceJob, facts: FaceFacts, place: number): TrapInto[] {
  const separation = facts.separations[place]!;
  return trapPairs(face.inks, face.traps)
    .filter(({ under, spreads, widthMm }) => {
      if (under !== place || widthMm === 0) return false;
      return face.inks[spreads]!.role !== 'base' || !everAsksBase(face.inks[place]!);
    })
    .sort((a, b) => a.spreads - b.spreads)
    .map((rule) => ({ rule, mask: intersect(facts.prints[rule.spreads]!, separation) }));
}
