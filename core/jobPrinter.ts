import { FACES, makeSurface } from './deck/index.ts';
import { type FilmPrinter, type LayOutOptions, printerSheet } from './film/index.ts';
import type { Job } from './job/index.ts';
import { done, type Outcome } from './units/index.ts';

export interface JobPrinter {
  readonly printer: FilmPrinter;
  readonly options: LayOutOptions;
}

/** A job's printer as the layout needs it: its sheet (a roll is cut to the deck's length), measured scale, shrink and lean, wishes. */
export function jobPrinter({ deck, printer }: Pick<Job, 'deck' | 'printer'>): Outcome<JobPrinter> {
  const lengths = FACES.map((face) => {
    const { tail, nose } = makeSurface(deck, face).extent;
    return nose - tail;
  });
  const sheet = printerSheet(printer, Math.max(...lengths));
  if (!sheet.ok) return sheet;
  const { margin, skewDeg, overlap, mirror, shareSheets, filmMarks } = printer;
  // A film that shrinks by a share comes out as if the printer printed that much shorter.
  const scaleX = printer.scaleX * (1 - (printer.shrinkX ?? 0));
  const scaleY = printer.scaleY * (1 - (printer.shrinkY ?? 0));
  return done({
    printer: { sheet: sheet.value, margin, scaleX, scaleY, skewDeg: skewDeg ?? 0, overlap, mirror },
    options: { shareSheets: shareSheets ?? false, marks: filmMarks ?? 'auto' },
  });
}
