import { inkFrom } from './defaults.ts';
import { withoutInk } from './handEdits.ts';
import type { FaceJob, Ink } from './schema.ts';

/** An ink to take: its colour, and what is known of it from the shelf. */
export interface TakenInk {
  readonly name: string;
  readonly hex: string;
  readonly opacity?: number | undefined;
  readonly kind?: Ink['kind'] | undefined;
  readonly meshPerCm?: number | undefined;
  readonly measured?: Ink['measured'];
}

/** A colour ink of a face from it; what is not known of it is as usual. */
export function inkTaken(
  { name, hex, opacity, kind, meshPerCm, measured }: TakenInk,
  among: readonly Ink[],
): Ink {
  return inkFrom(
    {
      name,
      hex,
      ...(opacity === undefined ? {} : { opacity }),
      ...(kind === undefined ? {} : { kind }),
      ...(meshPerCm === undefined ? {} : { meshPerCm }),
      ...(measured === undefined ? {} : { measured }),
    },
    among,
  );
}

/**
 * The face with these inks for its art, in this order. Bases and protected inks stay; an ink of the face that already prints the
 * same colour keeps its settings; what was given by hand to an ink that goes is forgotten.
 */
export function takeInks(face: FaceJob, found: readonly TakenInk[]): FaceJob {
  const stays = (ink: Ink) => ink.role === 'base' || ink.kept === true;
  const next = face.inks.filter(stays);
  for (const ink of found) {
    const same = (known: Ink) =>
      known.role === 'colour' && (known.hex === ink.hex || known.matches === ink.hex);
    if (next.some(same)) continue;
    next.push(face.inks.find(same) ?? inkTaken(ink, [...next, ...face.inks]));
  }
  // Kept inks keep their place among the found ones: light to dark as these came.
  const placeOf = (ink: Ink) => {
    const at = found.findIndex(({ hex }) => hex === ink.hex || hex === ink.matches);
    return ink.role === 'base' ? -1 : at < 0 ? found.length : at;
  };
  const ordered = next
    .map((ink, i) => ({ ink, i }))
    .sort((a, b) => placeOf(a.ink) - placeOf(b.ink) || a.i - b.i);
  const gone = face.inks.filter((ink) => !next.includes(ink));
  const left = gone.reduce((f, ink) => withoutInk(f, ink.id), face);
  return { ...left, inks: ordered.map(({ ink }) => ink) };
}
