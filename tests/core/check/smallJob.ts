import type { CheckInput, FaceFacts, PlacedArt } from '../../../core/check/index.ts';
import { deckTemplate, type Face } from '../../../core/deck/index.ts';
import { type FaceJob, type Ink, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { blankMask, copyMask, type Mask, setBit, union } from '../../../core/raster/index.ts';
import { baseMask, trapInk, trapPairs } from '../../../core/trap/index.ts';
import { MM_PER_INCH, toPx } from '../../../core/units/index.ts';

/** 20 points a mm: 0.3 mm is 6 points, and every size below is whole. */
export const DPI = 20 * MM_PER_INCH;
/** The test faces' raster, mm. */
export const [WIDTH, HEIGHT] = [40, 20];

/** Adds a rectangle, mm from the raster's top left corner. */
export function bar(mask: Mask, x: number, y: number, width: number, height: number): Mask {
  for (let py = Math.round(y * 20); py < Math.round((y + height) * 20); py++)
    for (let px = Math.round(x * 20); px < Math.round((x + width) * 20); px++) setBit(mask, px, py);
  return mask;
}

export const blank = (): Mask => blankMask(WIDTH * 20, HEIGHT * 20);
export const whole = (): Mask => bar(blank(), 0, 0, WIDTH, HEIGHT);

export const ink = (name: string, hex: string, more: Partial<Ink> = {}): Ink =>
  inkFrom({ name, hex, id: name.toLowerCase(), ...more }, []);

export const piece = (more: Partial<PlacedArt> = {}): PlacedArt => ({
  id: 'sketch',
  name: 'sketch.png',
  pxPerMm: null,
  ring: [
    [-18, -8],
    [18, -8],
    [18, 8],
    [-18, 8],
  ],
  unplanned: [],
  ...more,
});

/** A job with one piece of art on the bottom, these inks and settings. */
export function jobWith(inks: readonly Ink[], more: Partial<FaceJob> = {}, face: Face = 'bottom'): Job {
  const job = newJob({ name: 'Test', deck: deckTemplate('popsicle-8.25')! });
  const art = {
    id: 'sketch',
    name: 'sketch.png',
    hash: '0'.repeat(64),
    mediaType: 'image/png' as const,
    widthPx: 400,
    heightPx: 200,
    width: 36,
    height: 16,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface' as const,
    ground: null,
    hidden: false,
  };
  const settings = { ...job.faces[face], art: [art], inks: [...inks], ...more };
  return { ...job, faces: { ...job.faces, [face]: settings } };
}

/** The face as it would be made from these separations, traps and base included. */
export function factsOf(
  job: Job,
  separations: readonly Mask[],
  more: Partial<FaceFacts> = {},
  face: Face = 'bottom',
): FaceFacts {
  const { inks, traps } = job.faces[face];
  const rules = trapPairs(inks, traps);
  const prints = separations.map((_, i) => trapInk(separations, i, rules, DPI, null));
  for (const [i, { role }] of inks.entries()) {
    if (role !== 'base') continue;
    const covered = prints.filter((_, k) => k !== i && inks[k]!.needsBase.length > 0);
    prints[i] = baseMask({
      own: prints[i]!,
      covered,
      chokePx: toPx(traps.choke, DPI),
      narrowestPx: toPx(traps.narrowestLine, DPI),
    });
  }
  return {
    face,
    dpi: DPI,
    box: { x: -WIDTH / 2, y: -HEIGHT / 2, width: WIDTH, height: HEIGHT },
    separations,
    prints,
    printable: whole(),
    art: [piece()],
    sheets: [],
    holes: [],
    ...more,
  };
}

export const inputOf = (job: Job, ...faces: FaceFacts[]): CheckInput => ({ job, faces });

/** A copy with a rectangle taken out. */
export function without(mask: Mask, x: number, y: number, width: number, height: number): Mask {
  const out = copyMask(mask);
  for (let py = Math.round(y * 20); py < Math.round((y + height) * 20); py++)
    for (let px = Math.round(x * 20); px < Math.round((x + width) * 20); px++) setBit(out, px, py, false);
  return out;
}

export { union };
