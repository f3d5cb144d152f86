import type { FaceJob, Ink, Job } from '../job/index.ts';
import type { InkLook } from '../proof/index.ts';
import type { RunAdvice } from './advice.ts';
import { type Seen, seenOver } from './runLook.ts';
import { asksBase, baseOf, everAsksBase, liesOnBase, seesThrough } from './under.ts';
import { listed, percentText } from './wording.ts';

/** CIEDE2000 from its own colour from which on a printed ink looks like another. Common practice, no source. */
const SHIFT = 10;
/** On a base, inks grow paler and brighter, which is mostly wanted: told from this CIEDE2000 on. Common practice, no source. */
const PALER = 20;
/** Nearer by so much, another way to pull it is worth the work. Common practice, no source. */
const GAIN = 5;
/** A usual white, where the face has no base yet. */
const WHITE: InkLook = { hex: '#f7f3e8', opacity: 0.9, kind: 'opaque' };

/** An ink's look in a colourway, and that colourway's name where it has another colour there. */
interface Recoloured extends InkLook {
  readonly name: string;
  readonly way: string | null;
}

/** An ink in each of the colours that the run pulls it in, its own first. */
function coloursOf(job: Job, ink: Ink): Recoloured[] {
  const found: Recoloured[] = [{ ...lookIn(ink), name: ink.name, way: null }];
  for (const { name: way, colours } of job.colourways) {
    const other = colours[ink.id];
    if (other && !found.some(({ hex }) => hex === other.hex))
      found.push({
        ...lookIn(ink),
        measured: undefined,
        hex: other.hex,
        name: other.name,
        way,
      });
  }
  return found;
}
const lookIn = ({ hex, opacity, kind, measured }: Ink): InkLook => ({
  hex,
  opacity,
  kind,
  measured,
});

/** What would bring the ink nearer to its own colour on a veneer. */
type Remedy = 'base' | 'bare' | 'twice' | 'none';

function remedyFor(wood: string, base: InkLook, onBase: boolean, ink: InkLook, now: Seen): Remedy {
  const other = seenOver(wood, onBase ? [] : [base], ink);
  if (other.shift <= now.shift - GAIN) return onBase ? 'bare' : 'base';
  const twice = seenOver(wood, onBase ? [base, ink] : [ink], ink);
  return twice.shift <= now.shift - GAIN ? 'twice' : 'none';
}

const MENDS: Readonly<Record<Exclude<Remedy, 'base'>, string>> = {
  bare: 'It comes nearer without the base. One base film serves the whole run: take the base from under this ink on every veneer, or use an ink that hides more.',
  twice: 'Pull it twice there, dried in between, or use an ink that hides more; the films stay as they are.',
  none: 'Use an ink that hides more; the films stay as they are.',
};

function mendOf(remedy: Remedy, ink: Ink, hasBase: boolean): string {
  if (remedy !== 'base') return MENDS[remedy];
  if (!hasBase) return 'Add a base and let this ink ask for it there, or use an ink that hides more.';
  return everAsksBase(ink)
    ? 'Let it ask for the base there too, or use an ink that hides more; the films stay as they are.'
    : 'Let it ask for the base there (the base’s film then changes), or use an ink that hides more.';
}

/** Veneers on which nothing asks for the base, though other veneers' inks do. */
function leftOut(job: Job, face: FaceJob): RunAdvice[] {
  const base = face.inks[baseOf(face)];
  const without = job.veneers.filter(
    ({ id }) => !face.inks.some((ink) => ink.role === 'colour' && asksBase(ink, id)),
  );
  if (!base || without.length === 0 || without.length === job.veneers.length) return [];
  const on = listed(without.map(({ name }) => name));
  return [
    {
      ink: base.id,
      veneers: without.map(({ id }) => id),
      what: `On ${on} no ink asks for ${base.name} beneath it.`,
      mend: `Leave its pull out there. Where it prints art of its own it must be pulled, and its one film then lays it under the other inks as well.`,
    },
  ];
}

/** Inks that look like others on some veneers, by ink, its colour, and what would mend it; and bases to leave out. */
export const baseAdvice = (job: Job, face: FaceJob): RunAdvice[] => [
  ...leftOut(job, face),
  ...lookAdvice(job, face),
];

function lookAdvice(job: Job, face: FaceJob): RunAdvice[] {
  const at = baseOf(face);
  const base = at < 0 ? WHITE : lookIn(face.inks[at]!);
  return face.inks.flatMap((ink, place): RunAdvice[] => {
    // What lies under a clear coat or a pearl is meant to decide their colour.
    if (ink.role === 'base' || ink.kind === 'clear' || ink.kind === 'pearlescent') return [];
    return coloursOf(job, ink).flatMap((own): RunAdvice[] => {
      const off = job.veneers
        .map((veneer) => {
          const onBase = liesOnBase(face, place, veneer.id);
          const seen = seenOver(veneer.hex, onBase ? [base] : [], own);
          return { veneer, onBase, seen };
        })
        .filter(({ onBase, seen }) => seen.shift >= (onBase ? PALER : SHIFT))
        .map((found) => ({
          ...found,
          remedy: remedyFor(found.veneer.hex, base, found.onBase, own, found.seen),
        }));
      return (['base', 'bare', 'twice', 'none'] as const).flatMap((remedy): RunAdvice[] => {
        const these = off.filter((found) => found.remedy === remedy);
        if (these.length === 0) return [];
        const worst = these.reduce((a, b) => (b.seen.shift > a.seen.shift ? b : a));
        const names = (onBase: boolean) =>
          listed(these.filter((found) => found.onBase === onBase).map(({ veneer }) => veneer.name));
        const [bare, based] = [names(false), names(true)];
        const where = [bare && `on bare ${bare}`, based && `over the base on ${based}`].filter(Boolean);
        const why = seesThrough(ink)
          ? 'lets what is under it show'
          : `hides only ${percentText(ink.opacity)} of what is under it`;
        return [
          {
            ink: ink.id,
            veneers: these.map(({ veneer }) => veneer.id),
            looks: {
              own: own.hex,
              there: worst.seen.hex,
              on: worst.veneer.name,
            },
            what: `${own.way === null ? '' : `In “${own.way}” `}${own.name} ${why} and looks like another ink ${where.join(' and ')} (ΔE00 ${worst.seen.shift.toFixed(0)}; 5 shows at a glance).`,
            mend: mendOf(remedy, ink, at >= 0),
          },
        ];
      });
    });
  });
}
