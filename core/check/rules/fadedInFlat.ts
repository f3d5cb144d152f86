import { FACES } from '../../deck/index.ts';
import { isToned } from '../../job/index.ts';
import type { Problem } from '../problem.ts';
import type { JobRule } from '../rule.ts';

/** Art made fainter on a face whose inks cover or do not: it prints solid. */
export const fadedInFlat: JobRule = (job) =>
  FACES.flatMap((face): Problem[] => {
    const settings = job.faces[face];
    if (isToned(settings)) return [];
    return settings.art
      .filter((piece) => !piece.hidden && (piece.opacity ?? 1) < 1)
      .map((piece) => ({
        code: 'faded-in-flat',
        severity: 'note',
        face,
        ink: null,
        art: piece.id,
        what: `“${piece.name}” is set to ${Math.round((piece.opacity ?? 1) * 100)} % opacity, but the ${face} is printed in flat inks: it prints solid.`,
        where: 'whole piece',
        at: piece.wrap === 'surface' ? { s: piece.x, t: piece.y } : null,
        mend: 'Set its opacity to 100 %, give it a lighter ink, or separate the face into dots.',
      }));
  });
