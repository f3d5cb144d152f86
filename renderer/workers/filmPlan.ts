import type { Face } from '../../core/deck/index.ts';
import type { FaceRaster } from '../../core/faceRaster.ts';
import { type FaceLayout, type FilmLayout, planFace } from '../../core/film/index.ts';
import { filmPreview, type PreviewPrints } from '../../core/filmPreview.ts';
import type { Job } from '../../core/job/index.ts';
import { layOutRequest } from '../../core/layOutRequest.ts';
import { type Box, done, type Outcome } from '../../core/units/index.ts';

/** Sheets of one film, in one space, mm. */
export interface PlannedSheets {
  readonly box: Box;
  readonly sheets: readonly {
    readonly window: Box;
    readonly column: number;
    readonly row: number;
    readonly turned: boolean;
    /** Each cut once, with the lower of the two sheets that meet there; so are the places where it crosses ink. */
    readonly cuts: readonly (readonly (readonly [number, number])[])[];
    readonly crossings: readonly (readonly [number, number, number])[];
  }[];
}

/** What the studio shows of a face's films: on the deck in surface mm, and as the film lies in film mm. */
export interface PlannedFilms {
  readonly face: Face;
  readonly films: readonly (PlannedSheets & {
    readonly inkId: string;
    readonly pull: number;
    readonly marks: readonly { readonly kind: string; readonly x: number; readonly y: number }[];
    readonly film: PlannedSheets & {
      /** Middles of the strips that columns of sheets share, film mm, tail to nose: as the job holds them. */
      readonly boundaries: readonly number[];
    };
  })[];
  /** Sheets of transparency all films of the face take together. */
  readonly pages: number;
  readonly notes: readonly string[];
  /** The sentence and mend when the films do not fit. */
  readonly trouble: { readonly reason: string; readonly mend: string } | null;
}

function sheetsOf(film: FilmLayout): PlannedSheets {
  return {
    box: film.box,
    sheets: film.sheets.map((s) => {
      const seams = s.seams.filter((seam) => seam.with > s.index);
      return {
        window: s.window,
        column: s.column,
        row: s.row,
        turned: s.turn === 90,
        cuts: seams.map((seam) => seam.path),
        crossings: seams.flatMap((seam) => seam.crossings),
      };
    }),
  };
}

/** The same on the wood: boxes by the axes, where the flattening bends no straight line. */
function onSurface({ box, sheets }: PlannedSheets, { toSurface }: FaceRaster): PlannedSheets {
  const boxThere = (b: Box): Box => {
    const [x, y] = [toSurface(b.x, 0).s, toSurface(0, b.y).t];
    return { x, y, width: toSurface(b.x + b.width, 0).s - x, height: toSurface(0, b.y + b.height).t - y };
  };
  const there = (u: number, v: number) => {
    const { s, t } = toSurface(u, v);
    return [s, t] as const;
  };
  return {
    box: boxThere(box),
    sheets: sheets.map((sheet) => ({
      ...sheet,
      window: boxThere(sheet.window),
      cuts: sheet.cuts.map((path) => path.map(([u, v]) => there(u, v))),
      crossings: sheet.crossings.map(([u, v, length]) => [...there(u, v), length] as const),
    })),
  };
}

/** Middles of the strips two columns of sheets share. */
function boundariesOf({ sheets }: FilmLayout): number[] {
  return sheets.flatMap((sheet) =>
    sheet.row > 0
      ? []
      : sheet.seams
          .filter((seam) => seam.runs === 'across' && seam.with > sheet.index)
          .map(({ band }) => band.x + band.width / 2),
  );
}

function shown(layout: FaceLayout, raster: FaceRaster): PlannedFilms {
  return {
    face: layout.face,
    pages: layout.pages,
    notes: layout.notes,
    trouble: null,
    films: layout.films.map((film) => {
      const flat = sheetsOf(film);
      return {
        ...onSurface(flat, raster),
        inkId: film.art.inkId,
        pull: film.art.pull,
        // Scales of other pulls keep their places on this film and are not printed.
        marks: film.marks
          .filter(({ shapes }) => shapes.length > 0)
          .map(({ kind, x, y }) => {
            const { s, t } = raster.toSurface(x, y);
            return { kind, x: s, y: t };
          }),
        film: { ...flat, boundaries: boundariesOf(film) },
      };
    }),
  };
}

/** Films of one preview, to be laid out for any boundaries. */
export type FilmPlanner = (boundaries: Job['faces'][Face]['boundaries']) => PlannedFilms;

/**
 * The films of a face on sheets, from masks at screen resolution brought to film space: what the export makes at the
 * printer's own dpi, to a point of the screen. Marks, sheets and cuts are found once; a moved boundary costs its own cut.
 */
export function filmPlanner(job: Job, face: Face, preview: PreviewPrints): Outcome<FilmPlanner> {
  const made = filmPreview(job, face, preview);
  if (!made.ok) return made;
  const request = layOutRequest(job, made.value);
  if (!request.ok) return request;
  const plan = planFace(request.value);
  if (!plan.ok) return plan;
  return done((boundaries) => shown(plan.value.layOut(boundaries), made.value.raster));
}
