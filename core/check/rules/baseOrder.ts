import { FACES } from '../../deck/index.ts';
import type { Problem } from '../problem.ts';
import type { JobRule } from '../rule.ts';
import { baseOf, everAsksBase } from '../under.ts';
import { listed } from '../wording.ts';

/** A base must be there, and be pulled before everything it should lie under. */
export const baseOrder: JobRule = (job) =>
  FACES.flatMap((face): Problem[] => {
    const { inks, art } = job.faces[face];
    if (!art.some((piece) => !piece.hidden)) return [];
    const asking = inks.filter((ink) => ink.role === 'colour' && everAsksBase(ink));
    if (asking.length === 0) return [];
    const base = baseOf(job.faces[face]);
    const common = { severity: 'error', face, art: null, where: 'whole face', at: null } as const;
    if (base < 0)
      return [
        {
          ...common,
          code: 'base-absent',
          ink: asking[0]!.id,
          what: `${listed(asking.map((ink) => ink.name))} should lie on a base, but the ${face} has none.`,
          mend: 'Add a base ink as the first pull, or say that these inks need none.',
        },
      ];
    const early = asking.filter((ink) => inks.indexOf(ink) < base);
    if (early.length === 0) return [];
    const name = inks[base]!.name;
    return [
      {
        ...common,
        code: 'base-late',
        ink: inks[base]!.id,
        what: `${name} is pull ${base + 1}, after ${listed(early.map((ink) => ink.name))}, and would cover what it should lie under.`,
        mend: `Pull ${name} before ${early.length === 1 ? 'it' : 'them'}.`,
      },
    ];
  });
