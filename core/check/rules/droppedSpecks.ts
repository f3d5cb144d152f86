import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { areaText, counted, placeText } from '../wording.ts';

/** Specks and bare holes that were left out because no mesh would hold them: good to know before they are missed. */
export const droppedSpecks: FaceRule = (job, facts) => {
  const { inks, smallest } = job.faces[facts.face];
  const all = facts.dropped ?? [];
  return [null, ...inks.map((ink) => ink.id)].flatMap((id): Problem[] => {
    const own = all.filter(({ ink }) => ink === id);
    const [largest] = own;
    if (!largest) return [];
    const name = inks.find((ink) => ink.id === id)?.name;
    const what =
      name === undefined
        ? `${counted(own.length, 'bare hole was', 'bare holes were')} filled`
        : `${counted(own.length, `speck of ${name} was`, `specks of ${name} were`)} dropped`;
    return [
      {
        code: 'specks-dropped',
        severity: 'note',
        face: facts.face,
        ink: id,
        art: null,
        what: `${what[0]!.toUpperCase()}${what.slice(1)}: smaller than ${areaText(smallest)}, which no mesh holds.`,
        where: `largest (${largest.mm2.toFixed(2)} mm²) ${placeText(job, largest)}`,
        at: { s: largest.s, t: largest.t },
        mend:
          name === undefined
            ? 'Nothing, or draw it larger.'
            : 'Nothing; or draw it larger, lower the limit, or protect the ink.',
      },
    ];
  });
};
