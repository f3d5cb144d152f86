import { labOfHex } from '../../colour/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { trapsInto } from '../trapsInto.ts';
import { percentText, placeText } from '../wording.ts';

/** CIE L*; a smaller step hardly shows through. Common practice, no source. */
const LEAST_STEP = 15;

/** A lighter ink pulled after a darker one it runs over, without hiding it: their overlap shows as a dark edge. */
export const lightOverDark: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  return face.inks.flatMap((dark, place): Problem[] =>
    trapsInto(face, facts, place).flatMap(({ rule, mask }): Problem[] => {
      const light = face.inks[rule.spreads]!;
      if (rule.spreads < place || light.kind !== 'opaque') return [];
      if (labOfHex(light.hex).l - labOfHex(dark.hex).l < LEAST_STEP) return [];
      const spots = spotsOf(facts, mask);
      if (!spots) return [];
      return [
        {
          code: 'light-over-dark',
          severity: 'warning',
          face: facts.face,
          ink: light.id,
          art: null,
          what: `${light.name} is pulled over ${dark.name} but hides only ${percentText(light.opacity)}: their overlap will show as a dull edge.`,
          where: `largest ${placeText(job, spots.at)}`,
          at: spots.at,
          mend: `Pull ${light.name} before ${dark.name}, mix it more opaque, or keep the pair butted.`,
        },
      ];
    }),
  );
};
