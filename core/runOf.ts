import type { Face } from './deck/index.ts';
import type { Ink, Job } from './job/index.ts';
import {
  blanksFor,
  type Mesh,
  meshOfCount,
  USUAL,
  USUAL_FRAME_BAR,
  USUAL_HOURS,
  type WorkingHours,
} from './press/index.ts';

/** Decks of one veneer and colourway. */
export interface RunLot {
  readonly veneerId: string;
  readonly veneer: string;
  readonly veneerHex: string;
  readonly colourwayId: string | null;
  readonly colourway: string;
  /** Good decks wanted, and blanks that go through the press. */
  readonly good: number;
  readonly start: number;
}

/** The faces that are printed, in the order in which they are. */
export const printedFaces = (job: Job): Face[] =>
  (['bottom', 'top'] as const).filter((face) => job.faces[face].inks.length > 0);

/** Every pull of the run, bottom first. */
export const pullsOf = (job: Job): { readonly face: Face; readonly ink: Ink; readonly pull: number }[] =>
  printedFaces(job).flatMap((face) => job.faces[face].inks.map((ink, i) => ({ face, ink, pull: i + 1 })));

/** The lots of the run with the blanks they start from. */
export function lotsOf(job: Job): RunLot[] {
  const pulls = pullsOf(job).length;
  const spoil = job.press.spoilPerPull ?? USUAL.spoilPerPull.value;
  const own =
    job.press.lots ?? job.veneers.map((v) => ({ veneerId: v.id, colourwayId: null, decks: v.decks }));
  return own.flatMap(({ veneerId, colourwayId, decks }) => {
    const veneer = job.veneers.find((v) => v.id === veneerId);
    if (!veneer || decks === 0) return [];
    const colourway = colourwayId === null ? undefined : job.colourways.find((c) => c.id === colourwayId);
    return [
      {
        veneerId,
        veneer: veneer.name,
        veneerHex: veneer.hex,
        colourwayId: colourway?.id ?? null,
        colourway: colourway?.name ?? 'inks as drawn',
        good: decks,
        start: blanksFor(decks, pulls, spoil),
      },
    ];
  });
}

/** An ink's name and colour in a colourway. */
export function inkIn(job: Job, ink: Ink, colourwayId: string | null): { name: string; hex: string } {
  const own = job.colourways.find((c) => c.id === colourwayId)?.colours[ink.id];
  return own ? { name: own.name || ink.name, hex: own.hex } : { name: ink.name, hex: ink.hex };
}

/** The key of `press.inkUse`. */
export const inkKey = (face: Face, ink: Ink): string => `${face} ${ink.id}`;

/** How an ink is printed and sold: the user's own figures, else the usual ones. */
export function inkUseOf(job: Job, face: Face, ink: Ink) {
  const own = job.press.inkUse?.[inkKey(face, ink)];
  return {
    passes: own?.passes ?? USUAL.passes.value,
    density: own?.density ?? USUAL.density.value,
    potMl: own?.potMl ?? USUAL.potMl.value,
    price: own?.price ?? null,
  };
}

/** The mesh an ink is pulled through: the shop's own with that count, else the table's. */
export function meshOf(job: Job, face: Face, ink: Ink): Mesh {
  const thread = job.press.inkUse?.[inkKey(face, ink)]?.threadUm;
  const own = job.press.ownMeshes?.find(
    (m) => m.countPerCm === ink.meshPerCm && (thread === undefined || m.threadUm === thread),
  );
  if (own) {
    const { countPerCm, threadUm, openingUm, thicknessUm, inkVolume } = own;
    return {
      countPerCm,
      threadUm,
      ...(openingUm === undefined ? {} : { openingUm }),
      ...(thicknessUm === undefined ? {} : { thicknessUm }),
      ...(inkVolume === undefined ? {} : { inkVolume }),
    };
  }
  const row = meshOfCount(ink.meshPerCm);
  // A count that no table row has keeps its own pitch; its thread is taken in proportion.
  const threadUm = thread ?? Math.round((row.threadUm * row.countPerCm) / ink.meshPerCm);
  return { countPerCm: ink.meshPerCm, threadUm };
}

/** The shop's working hours. */
export const hoursOf = (job: Job): WorkingHours =>
  (job.press.hours as WorkingHours | undefined) ?? USUAL_HOURS;

/** The jig's frame: bar and hinge as measured, else usual. */
export const jigOf = (job: Job) => ({
  frameWidth: job.press.frameWidth,
  frameLength: job.press.frameLength,
  frameBar: job.press.frameBar ?? USUAL_FRAME_BAR,
  hinge: job.press.hinge ?? ('near' as const),
  bolts: job.press.bolts ?? ('outer' as const),
});
