import { deltaE00, labOfHex, labOfLinear, linearOfHex } from '../colour/index.ts';
import type { FaceJob, Ink, Job } from '../job/index.ts';
import { lookOf } from '../proof/index.ts';
import { HIDES } from '../trap/index.ts';
import { asksBase, baseOf } from './under.ts';
import { listed, percentText } from './wording.ts';

/** Something that a veneer or a colourway asks of the pulls, though the films stay the same. */
export interface RunAdvice {
  /** Ink id. */
  readonly ink: string;
  readonly what: string;
  readonly mend: string;
}

/** CIE L*; a smaller step hardly shows through an overlap. Common practice, no source. */
const LEAST_STEP = 15;
/** CIEDE2000 between an ink over white and over bare wood from which on it looks like another ink. Common practice, no source. */
const SHIFT = 10;

/** An ink's colour in a colourway. */
const inkIn = (ink: Ink, other: { readonly name: string; readonly hex: string } | undefined) => ({
  name: other?.name ?? ink.name,
  hex: other?.hex ?? ink.hex,
  measured: other && other.hex !== ink.hex ? undefined : ink.measured,
});

/** How far the ink's look over bare wood lies from its look over white, ΔE00. */
function shiftOn(ink: Ink, own: ReturnType<typeof inkIn>, woodHex: string): number {
  const look = lookOf({ ...own, opacity: ink.opacity, kind: ink.kind });
  const wood = linearOfHex(woodHex);
  const over = (i: 0 | 1 | 2) => look[i].body + (look[i].through * wood[i]) / (1 - look[i].r0 * wood[i]);
  return deltaE00(labOfLinear([over(0), over(1), over(2)]), labOfHex(own.hex));
}

const named = (names: readonly string[]) => listed(names.map((name) => `“${name}”`));

/** Inks that let so much of a veneer through that they need a base there; by ink and its colour. */
function baseAdvice(job: Job, face: FaceJob): RunAdvice[] {
  const ways =
    job.colourways.length > 0 ? job.colourways : [{ name: '', colours: {} as Record<string, never> }];
  const hasBase = baseOf(face) >= 0;
  return face.inks.flatMap((ink): RunAdvice[] => {
    if (ink.role === 'base' || ink.kind === 'clear') return [];
    const told = new Set<string>();
    return ways.flatMap(({ colours }): RunAdvice[] => {
      const own = inkIn(ink, colours[ink.id]);
      if (told.has(own.hex)) return [];
      told.add(own.hex);
      const off = job.veneers
        .filter((veneer) => !(hasBase && asksBase(ink, veneer.id)))
        .map((veneer) => ({ veneer, shift: shiftOn(ink, own, veneer.hex) }))
        .filter(({ shift }) => shift >= SHIFT);
      if (off.length === 0) return [];
      const most = Math.max(...off.map(({ shift }) => shift));
      return [
        {
          ink: ink.id,
          what: `${own.name} looks like another ink on bare ${listed(off.map(({ veneer }) => veneer.name))} (ΔE00 ${most.toFixed(0)} from its own colour).`,
          mend: hasBase
            ? 'Put the base under it there, or use an ink that hides more; the base film serves every veneer.'
            : 'Add a base and put it under this ink there, or use an ink that hides more.',
        },
      ];
    });
  });
}

/** Inks that a colourway makes lighter than an earlier one which they do not hide: another order would be needed there. */
function orderAdvice(job: Job, face: FaceJob): RunAdvice[] {
  const inks = face.inks.map((ink, place) => ({ ink, place })).filter(({ ink }) => ink.role === 'colour');
  const pair = (light: string, dark: string) => labOfHex(light).l - labOfHex(dark).l >= LEAST_STEP;
  const found = new Map<string, { ink: Ink; name: string; under: string; ways: string[] }>();
  for (const way of job.colourways)
    for (const late of inks)
      for (const early of inks) {
        const [i, j] = [late.ink, early.ink];
        if (late.place <= early.place || i.opacity >= HIDES || i.kind !== 'opaque' || j.kind === 'clear')
          continue;
        const [top, under] = [inkIn(i, way.colours[i.id]), inkIn(j, way.colours[j.id])];
        // What is so as drawn is told by the traps, where the two really meet.
        if (!pair(top.hex, under.hex) || pair(i.hex, j.hex)) continue;
        const key = `${i.id} ${j.id} ${top.hex} ${under.hex}`;
        const known = found.get(key);
        if (known) known.ways.push(way.name);
        else found.set(key, { ink: i, name: top.name, under: under.name, ways: [way.name] });
      }
  return [...found.values()].map(({ ink, name, under, ways }) => ({
    ink: ink.id,
    what: `In ${named(ways)} ${name} is pulled over ${under}, which is darker, and hides only ${percentText(ink.opacity)}: where they overlap it will look dull.`,
    mend: `Pull ${name} before ${under} in that colourway, or mix it more opaque there.`,
  }));
}

/** What the veneers and colourways of the run ask of the face's pulls: one sentence each and a mend. */
export const runAdvice = (job: Job, face: FaceJob): RunAdvice[] => [
  ...baseAdvice(job, face),
  ...orderAdvice(job, face),
];
