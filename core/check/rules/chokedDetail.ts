import { isBlank, subtract } from '../../raster/index.ts';
import { toPx } from '../../units/index.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { thinLines } from '../thinLines.ts';
import { baseOf } from '../under.ts';
import { counted, lengthText, placeText } from '../wording.ts';

/** Lines a plain choke of the base would take away; the base keeps them, but not as far inside as asked. */
export const chokedDetail: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  const base = baseOf(face);
  const { choke, narrowestLine } = face.traps;
  if (base < 0 || choke === 0 || isBlank(facts.prints[base]!)) return [];
  // The kept core of a choked line is as wide as the mesh holds: anything that narrow was kept from the choke.
  const kept = thinLines(facts.prints[base]!, toPx(narrowestLine, facts.dpi) + 1);
  // Its own white is art and was not choked at all.
  const spots = spotsOf(facts, subtract(kept, facts.separations[base]!, kept), 4);
  if (!spots) return [];
  const ink = face.inks[base]!;
  return [
    {
      code: 'choke-limited',
      severity: 'note',
      face: facts.face,
      ink: ink.id,
      art: null,
      what: `A choke of ${lengthText(job, choke)} would remove ${ink.name} from lines in ${counted(spots.count, 'place', 'places')}; there it keeps ${lengthText(job, narrowestLine)} and may peek out beside them.`,
      where: `longest ${placeText(job, spots.at)}`,
      at: spots.at,
      mend: 'Thicken these lines, use a smaller choke, or let their ink print without the base.',
    },
  ];
};
