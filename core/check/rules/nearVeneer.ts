import { deltaE00, labOfHex } from '../../colour/index.ts';
import { isBlank } from '../../raster/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { liesOnBase } from '../under.ts';
import { listed } from '../wording.ts';

/** CIEDE2000; nearer than this, a shape on bare wood is hard to see across a room. Common practice, no source. */
const LEAST_DELTA = 8;

/** An ink that all but matches the bare wood it prints on, in any colourway. */
export const nearVeneer: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  return face.inks.flatMap((ink, place): Problem[] => {
    if (ink.kind === 'clear' || isBlank(facts.separations[place]!)) return [];
    const looks = new Map([[ink.hex, ink.name]]);
    for (const { colours } of job.colourways) {
      const other = colours[ink.id];
      if (other && !looks.has(other.hex)) looks.set(other.hex, other.name);
    }
    return [...looks].flatMap(([hex, name]): Problem[] => {
      const lab = labOfHex(hex);
      const like = job.veneers
        .filter((veneer) => !liesOnBase(face, place, veneer.id))
        .map((veneer) => ({ veneer, delta: deltaE00(lab, labOfHex(veneer.hex)) }))
        .filter(({ delta }) => delta < LEAST_DELTA);
      if (like.length === 0) return [];
      const nearest = Math.min(...like.map(({ delta }) => delta));
      return [
        {
          code: 'ink-like-veneer',
          severity: 'warning',
          face: facts.face,
          ink: ink.id,
          art: null,
          what: `${name} is hardly different from ${listed(like.map(({ veneer }) => veneer.name))} (ΔE00 ${nearest.toFixed(1)}, below ${LEAST_DELTA}) and prints there on bare wood.`,
          where: 'whole face',
          at: spotsOf(facts, facts.separations[place]!)?.at ?? null,
          mend: 'Put the base under it, change its colour, or leave that veneer out.',
        },
      ];
    });
  });
};
