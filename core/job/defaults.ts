import type { Deck } from '../deck/index.ts';
import type { FaceJob, Ink, Job, Press, Printer } from './schema.ts';
import { JOB_VERSION } from './schema.ts';

/**
 * What a new job starts from. Each value is common practice, no source, unless it says otherwise; every one can be
 * changed in the studio and is kept in the job.
 */
export const DEFAULT_PRESS: Press = {
  frameWidth: 400,
  frameLength: 1060,
  offContact: 3,
  blade: 180,
  maxStretch: 0.03,
  registerTolerance: 0.5,
  compensateGrowth: true,
};

/** Letter by ANSI/ASME Y14.1; 5 mm is safe for nearly all desktop laser printers (makers state 4.0 to 5.1 mm). */
export const DEFAULT_PRINTER: Printer = {
  name: 'Office laser printer',
  dpi: 600,
  sheet: 'letter',
  sheetWidth: 215.9,
  sheetHeight: 279.4,
  margin: 5,
  scaleX: 1,
  scaleY: 1,
  overlap: 20,
  mirror: false,
};

const emptyFace = (clearHoles: number): FaceJob => ({
  art: [],
  inks: [],
  method: 'spot',
  traps: { width: 0.5, pairs: [], choke: 0.35, narrowestLine: 0.3 },
  smallest: 0.09,
  railMargin: 6,
  clearHoles,
  development: 'balanced',
  measuredGrowth: { along: null, across: null },
});

/** Mesh for opaque spot inks on wood, threads per cm (common practice, no source). */
export const DEFAULT_MESH = 77;

/** A job without art or inks on natural maple. */
export function newJob(start: { readonly name: string; readonly deck: Deck }): Job {
  return {
    version: JOB_VERSION,
    name: start.name,
    shop: '',
    notes: '',
    units: 'mm',
    deck: start.deck,
    faces: { bottom: emptyFace(0), top: emptyFace(0) },
    veneers: [{ id: 'natural', name: 'Natural maple', hex: '#dcb98a', decks: 12 }],
    colourways: [],
    printer: DEFAULT_PRINTER,
    press: DEFAULT_PRESS,
  };
}

/** An id made from a name: lower-case letters, digits and hyphens, unlike any in `taken`. */
export function idFrom(name: string, taken: Iterable<string>): string {
  const used = new Set(taken);
  const stem =
    name
      .toLowerCase()
      .normalize('NFKD')
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || 'item';
  let id = stem;
  for (let n = 2; used.has(id); n++) id = `${stem}-${n}`;
  return id;
}

/** An opaque colour ink with usual settings; `among` are the face's other inks, so that the id is new. */
export function inkFrom(
  start: { readonly name: string; readonly hex: string } & Partial<Ink>,
  among: readonly Ink[],
): Ink {
  return {
    opacity: 0.92,
    kind: 'opaque',
    role: 'colour',
    needsBase: [],
    meshPerCm: DEFAULT_MESH,
    ...start,
    id:
      start.id ??
      idFrom(
        start.name,
        among.map((ink) => ink.id),
      ),
  };
}
