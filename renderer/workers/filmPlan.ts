import { type Face, makeSurface, truckHoles } from '../../core/deck/index.ts';
import type { FacePreview } from '../../core/facePreview.ts';
import { type FilmArt, layOutFace } from '../../core/film/index.ts';
import type { Job } from '../../core/job/index.ts';
import { jobPrinter } from '../../core/jobPrinter.ts';
import type { Box } from '../../core/units/index.ts';

/** What the board shows of a face's films; everything in surface mm. */
export interface PlannedFilms {
  readonly face: Face;
  readonly films: readonly {
    readonly inkId: string;
    readonly pull: number;
    readonly box: Box;
    readonly marks: readonly { readonly kind: string; readonly x: number; readonly y: number }[];
    readonly sheets: readonly {
      readonly window: Box;
      readonly column: number;
      readonly row: number;
      readonly turned: boolean;
      readonly cuts: readonly (readonly (readonly [number, number])[])[];
      readonly crossings: readonly (readonly [number, number, number])[];
    }[];
  }[];
  /** Sheets of transparency all films of the face take together. */
  readonly pages: number;
  readonly notes: readonly string[];
  /** The sentence and mend when the films do not fit. */
  readonly trouble: { readonly reason: string; readonly mend: string } | null;
}

/**
 * The films of a face on sheets, from masks at screen resolution. Film space differs from the surface by the mesh's
 * growth alone (under 1 %), so the surface stands in for it here; the export works at the printer's own dpi.
 */
export function planFilms(job: Job, face: Face, preview: FacePreview): PlannedFilms {
  const inks = job.faces[face].inks;
  const printed = jobPrinter(job);
  if (!printed.ok)
    return { face, films: [], pages: 0, notes: [], trouble: { reason: printed.reason, mend: printed.mend } };
  const surface = makeSurface(job.deck, face);
  const films: FilmArt[] = inks.map((ink, i) => ({
    inkId: ink.id,
    inkName: ink.name,
    hex: ink.hex,
    pull: i + 1,
    pulls: inks.length,
    meshPerCm: ink.meshPerCm,
    mask: preview.prints[i]!,
    box: preview.box,
    dpi: preview.dpi,
  }));
  const laid = layOutFace({
    face,
    jobName: job.name,
    films,
    holes: truckHoles(job.deck, face).map((hole) => {
      const at = surface.toSurface(hole);
      return { u: at.s, v: at.t };
    }),
    printer: printed.value.printer,
    options: { ...printed.value.options, boundaries: job.faces[face].boundaries ?? {} },
  });
  if (!laid.ok)
    return { face, films: [], pages: 0, notes: [], trouble: { reason: laid.reason, mend: laid.mend } };
  return {
    face,
    pages: laid.value.pages,
    notes: laid.value.notes,
    trouble: null,
    films: laid.value.films.map((film) => ({
      inkId: film.art.inkId,
      pull: film.art.pull,
      box: film.box,
      marks: film.marks.map(({ kind, x, y }) => ({ kind, x, y })),
      sheets: film.sheets.map((s) => ({
        window: s.window,
        column: s.column,
        row: s.row,
        turned: s.turn === 90,
        cuts: s.seams.map((seam) => seam.path),
        crossings: s.seams.flatMap((seam) => seam.crossings),
      })),
    })),
  };
}
