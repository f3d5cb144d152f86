import { labOfHex } from '../colour/index.ts';
import type { FaceJob, Ink, Job } from '../job/index.ts';
import { HIDES } from '../trap/index.ts';
import type { RunAdvice } from './advice.ts';
import { listed, percentText } from './wording.ts';

/** CIE L*; a smaller step hardly shows through an overlap. Common practice, no source. */
const LEAST_STEP = 15;

const lighter = (light: string, dark: string) => labOfHex(light).l - labOfHex(dark).l >= LEAST_STEP;

/** A light ink that a colourway pulls over a dark one it does not hide. */
interface Clash {
  readonly light: Ink;
  readonly lightName: string;
  readonly dark: Ink;
  readonly darkName: string;
}

function clashesOf(face: FaceJob, colours: Job['colourways'][number]['colours']): Clash[] {
  const inks = face.inks.filter((ink) => ink.role === 'colour');
  const hexOf = (ink: Ink) => colours[ink.id]?.hex ?? ink.hex;
  const nameOf = (ink: Ink) => colours[ink.id]?.name ?? ink.name;
  return inks.flatMap((late, i) => {
    if (late.opacity >= HIDES || late.kind !== 'opaque') return [];
    return inks.slice(0, i).flatMap((early): Clash[] => {
      // What is so as drawn is told by the traps, where the two really meet.
      const fresh = lighter(hexOf(late), hexOf(early)) && !lighter(late.hex, early.hex);
      return fresh && early.kind !== 'clear'
        ? [
            {
              light: late,
              lightName: nameOf(late),
              dark: early,
              darkName: nameOf(early),
            },
          ]
        : [];
    });
  });
}

/** The clashes in as few groups as a step at a time finds, each of one ink that moves. */
function groupsOf(
  clashes: readonly Clash[],
): { readonly moves: 'light' | 'dark'; readonly of: readonly Clash[] }[] {
  const groups: { moves: 'light' | 'dark'; of: readonly Clash[] }[] = [];
  let left = [...clashes];
  while (left.length > 0) {
    const offered = left.flatMap((clash) =>
      (['light', 'dark'] as const).map((moves) => ({
        moves,
        of: left.filter((other) => other[moves] === clash[moves]),
      })),
    );
    const most = offered.reduce((a, b) => (b.of.length > a.of.length ? b : a));
    groups.push(most);
    left = left.filter((clash) => !most.of.includes(clash));
  }
  return groups;
}

/** Inks that a colourway makes lighter than an earlier one which they do not hide: another order would be needed there. */
export function orderAdvice(job: Job, face: FaceJob): RunAdvice[] {
  const found = new Map<
    string,
    Omit<RunAdvice, 'what'> & { readonly rest: string; readonly ways: string[] }
  >();
  for (const way of job.colourways)
    for (const { moves, of } of groupsOf(clashesOf(face, way.colours))) {
      const first = of[0]!;
      const hides = percentText(Math.min(...of.map(({ light }) => light.opacity)));
      const lights = listed(of.map(({ lightName }) => lightName));
      const darks = listed(of.map(({ darkName }) => darkName));
      const several = of.length > 1;
      const rest =
        moves === 'light'
          ? `${first.lightName} is pulled over ${darks}, which ${several ? 'are' : 'is'} darker, and hides only ${hides}: where they overlap it will look dull.`
          : `${lights} ${several ? 'are' : 'is'} pulled over ${first.darkName}, which is darker, and hide${several ? '' : 's'} only ${hides}: where they overlap ${several ? 'they' : 'it'} will look dull.`;
      const mend =
        moves === 'light'
          ? `Pull ${first.lightName} before ${darks} in that colourway, or mix it more opaque there; the films stay as they are.`
          : `Pull ${first.darkName} after ${several ? 'them' : lights} in that colourway, or mix ${several ? 'them' : 'it'} more opaque there; the films stay as they are.`;
      const known = found.get(rest);
      if (known) known.ways.push(way.name);
      else
        found.set(rest, {
          ink: first[moves].id,
          veneers: [],
          rest,
          mend,
          ways: [way.name],
        });
    }
  return [...found.values()].map(({ rest, ways, ...told }) => ({
    ...told,
    what: `In ${listed(ways.map((name) => `“${name}”`))} ${rest}`,
  }));
}
