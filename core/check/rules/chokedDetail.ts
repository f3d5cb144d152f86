import { blankMask, copyMask, intersect, isBlank, shrink, subtract, union } from '../../raster/index.ts';
import { toPx } from '../../units/index.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { baseOf, everAsksBase } from '../under.ts';
import { counted, lengthText, placeText } from '../wording.ts';
import { LONG_ENOUGH } from './fineLines.ts';

/** Lines a plain choke of the base would take away; the base keeps them, but not as far inside as asked. */
export const chokedDetail: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  const base = baseOf(face);
  const { choke, narrowestLine } = face.traps;
  if (base < 0 || choke === 0 || isBlank(facts.prints[base]!)) return [];
  const covered = blankMask(facts.printable.width, facts.printable.height);
  const all = copyMask(facts.prints[base]!);
  for (const [place, ink] of face.inks.entries()) {
    if (place === base || !everAsksBase(ink)) continue;
    union(covered, facts.separations[place]!, covered);
    union(all, facts.prints[place]!, all);
  }
  const kept = intersect(facts.prints[base]!, covered);
  subtract(kept, shrink(all, toPx(choke, facts.dpi)), kept);
  const spots = spotsOf(facts, kept, LONG_ENOUGH);
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
