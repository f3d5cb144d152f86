import { labOfHex } from '../../colour/index.ts';
import { isBlank } from '../../raster/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { liesOnBase, seesThrough, swallows } from '../under.ts';
import { listed } from '../wording.ts';

/** An ink that shows what lies under it, on dark wood without a base. */
export const baseMissing: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  return face.inks.flatMap((ink, place): Problem[] => {
    if (ink.role === 'base' || !seesThrough(ink) || isBlank(facts.separations[place]!)) return [];
    const dark = job.veneers.filter(
      (veneer) => swallows(job, veneer.id) && !liesOnBase(face, place, veneer.id),
    );
    // A dark ink meant to deepen dark wood does not vanish on it.
    const swallowed = dark.filter((veneer) => labOfHex(ink.hex).l > labOfHex(veneer.hex).l);
    if (swallowed.length === 0) return [];
    return [
      {
        code: 'base-missing',
        severity: 'warning',
        face: facts.face,
        ink: ink.id,
        art: null,
        what: `${ink.name} lets the wood through and has no base beneath it on ${listed(swallowed.map(({ name }) => name))}, which ${swallowed.length === 1 ? 'is' : 'are'} dark.`,
        where: 'whole face',
        at: spotsOf(facts, facts.separations[place]!)?.at ?? null,
        mend: 'Let it ask for the base on these veneers, or choose an opaque ink.',
      },
    ];
  });
};
