import { strToU8 } from 'fflate';
import type { Face } from './deck/index.ts';
import type { FaceMasks } from './faceMasks.ts';
import {
  type FaceLayout,
  type FilmManifest,
  filmManifest,
  filmMask,
  type SheetLayout,
  type Stencil,
  sheetPicture,
} from './film/index.ts';
import { canonicalJson, DEFAULT_HALFTONE, DEFAULT_INDEX, isToned, type Job } from './job/index.ts';
import { type LaidFace, type LayFacesRequest, layFaces } from './layFaces.ts';
import { packSheets } from './packSheets.ts';
import type { PaperPage } from './paper/index.ts';
import type { Deflate } from './ports/index.ts';
import { crop } from './raster/index.ts';
import type { AssemblyInput } from './tasks.ts';
import { tryDrawings } from './tryDrawings.ts';
import { type Abort, cancelled, done, type Outcome, type Progress } from './units/index.ts';

export interface FilmsRequest extends LayFacesRequest {
  readonly deflate: Deflate;
  /** Each film before cutting, and before trapping, as a 1-bit PNG. */
  readonly masks: boolean;
  /** separations.pdf as well. */
  readonly composite: boolean;
  /** The faces' films, where they were laid out before: for films and press sheets from one separation. */
  readonly laid?: readonly LaidFace[];
}

export interface FilmSet {
  /** Complete files by name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly manifest: FilmManifest;
  /** Sentences for the user: marks left out, specks dropped, seams through ink. */
  readonly notes: readonly string[];
}

/** A part of the whole, 0 to 1, as the caller hears it. */
const part =
  (say: Progress, from: number, to: number): Progress =>
  (share, text) =>
    say(from + (to - from) * share, text);

/** What the printer should know of shaded art before burning its screens. */
function toneNotes(job: Job, face: Face): string[] {
  const settings = job.faces[face];
  if (!isToned(settings)) return [];
  const dots =
    settings.method === 'index'
      ? `${(settings.index ?? DEFAULT_INDEX).dotMm} mm dots of single inks`
      : `${(settings.halftone ?? DEFAULT_HALFTONE).lpi} lpi screens`;
  return [
    `${dots}: dots are not trapped and no specks are dropped. Try the mesh and the angles on paper first.`,
  ];
}

/** The masks of `--masks`: exactly the film's box, before cutting; and the separation in the same box. */
async function maskFiles(
  made: FaceMasks,
  layout: FaceLayout,
  tools: FilmsRequest,
  files: Map<string, Uint8Array>,
) {
  for (const [i, film] of layout.films.entries()) {
    const name = `${layout.face}-${film.art.pull}-${film.art.inkId}.png`;
    files.set(`mask-${name}`, await tools.codec.encodeMaskPng(filmMask(film), layout.dpi));
    const separation = made.separations[i];
    if (!separation) continue;
    const { x, y } = film.offsetPx;
    const cut = crop(separation, x, y, film.widthPx, film.heightPx);
    files.set(`separation-${name}`, await tools.codec.encodeMaskPng(cut, layout.dpi));
  }
}

/** Every sheet's picture as films.pdf holds it: those packed while films were laid out, and the others now. */
async function sheetStencils(
  faces: readonly LaidFace[],
  tools: Pick<FilmsRequest, 'workers' | 'abort'>,
  say: Progress,
): Promise<ReadonlyMap<SheetLayout, Stencil>> {
  const packed = new Map<SheetLayout, Stencil>();
  for (const { laid, stencils } of faces) {
    const all = laid.films.flatMap((film) => film.sheets.map((sheet) => ({ film, sheet })));
    const each =
      stencils ??
      (await packSheets(
        all.map(({ film, sheet }) => sheetPicture(film, sheet)),
        tools,
        (count) => say(count / all.length, `writing sheet ${count} of ${all.length}`),
      ));
    for (const [i, { sheet }] of all.entries()) packed.set(sheet, each[i] as Stencil);
  }
  return packed;
}

/** What sheets draw, where it was packed while films were laid out. */
function drawnSheets(faces: readonly LaidFace[]): ReadonlyMap<SheetLayout, Uint8Array> {
  const all = new Map<SheetLayout, Uint8Array>();
  for (const { laid, drawn } of faces)
    for (const [i, sheet] of laid.films.flatMap((film) => film.sheets).entries())
      if (drawn?.[i]) all.set(sheet, drawn[i]);
  return all;
}

/**
 * films.pdf of faces laid out before. Sheets come packed from the threads, so that this one only binds them together, which takes it no longer
 * than any of them would take to be told of it.
 */
export async function filmPages(
  faces: readonly LaidFace[],
  jobName: string,
  tools: Pick<FilmsRequest, 'workers' | 'abort' | 'deflate'>,
  say: Progress,
): Promise<Uint8Array> {
  const stencils = await sheetStencils(faces, tools, say);
  const { deflate, abort } = tools;
  const { filmsPdf } = await import('./pdf/index.ts');
  const layouts = faces.map(({ laid }) => laid);
  return filmsPdf(layouts, {
    jobName,
    deflate,
    stencils,
    drawn: drawnSheets(faces),
    ...(abort ? { abort } : {}),
  });
}

/** A face's layout as assembly.pdf needs it: what sheets of transparency draw is most of it and would be copied for nothing. */
const forGuide = (layout: FaceLayout): FaceLayout => ({
  ...layout,
  films: layout.films.map((film) => ({
    ...film,
    sheets: film.sheets.map((sheet) => ({ ...sheet, marks: [], labels: [] })),
  })),
});

/**
 * The whole journey: job → wrap → coverage → masks → traps → films → sheets → pages. The same job gives the same bytes,
 * whatever the number of workers. Stops soon after `abort` says so, with nothing to clear away.
 */
export async function makeFilms(request: FilmsRequest): Promise<Outcome<FilmSet>> {
  const { job, deflate, abort } = request;
  const say: Progress = request.progress ?? (() => {});
  const files = new Map<string, Uint8Array>();
  const layouts: FaceLayout[] = [];
  const growths = new Map<Face, { x: number; y: number }>();
  const notes: string[] = [];
  if (!request.laid) tryDrawings(request);
  // What writes documents is large: it is read while drawings are tried, not when the films wait for it.
  const { bindAssembly, separationsPdf } = await import('./pdf/index.ts');
  const faceFilms = request.laid
    ? done(request.laid)
    : await layFaces({ ...request, pack: true, assembly: true, progress: part(say, 0, 0.85) });
  if (!faceFilms.ok) return faceFilms;
  for (const { made, laid } of faceFilms.value) {
    const { face } = laid;
    layouts.push(laid);
    growths.set(face, { x: made.growth.along, y: made.growth.across });
    notes.push(...laid.notes.map((note) => `${face}: ${note}`));
    notes.push(...toneNotes(job, face).map((note) => `${face}: ${note}`));
    const specks = made.dropped.length;
    if (specks > 0)
      notes.push(
        `${face}: ${specks} specks and pinholes under ${job.faces[face].smallest} mm² were dropped.`,
      );
    for (const { hex, share: area } of made.unplanned.slice(0, 3))
      notes.push(
        `${face}: the art has ${hex} on ${(area * 100).toFixed(1)} % of its area, which is near no ink.`,
      );
    if (request.masks) await maskFiles(made, laid, request, files);
  }
  const options = { jobName: job.name, deflate, ...(abort ? { abort } : {}) };
  // All that takes long is left to the threads, so that this one still hears of a stop.
  const [pages, films] = await Promise.all([
    request.workers.run<AssemblyInput, PaperPage[][]>(
      'assemblyPages',
      {
        layouts: layouts.map(forGuide),
        jobName: job.name,
        pictures: faceFilms.value.map(({ pictures }) => pictures),
      },
      abort,
    ),
    filmPages(faceFilms.value, job.name, request, part(say, 0.85, 0.98)),
  ]);
  if (abort?.aborted) return cancelled();
  const assembly = await bindAssembly(pages, job.name);
  const manifest = filmManifest(job.name, layouts, (face) => growths.get(face) ?? { x: 0, y: 0 });
  const ordered = new Map<string, Uint8Array>([
    ['films.pdf', films],
    ['assembly.pdf', assembly],
    ['films.json', strToU8(canonicalJson(manifest))],
  ]);
  if (request.composite) {
    say(0.99, 'separations for a film house');
    ordered.set('separations.pdf', await separationsPdf(layouts, options));
  }
  for (const [name, bytes] of files) ordered.set(name, bytes);
  if (stopped(abort)) return cancelled();
  say(1, 'done');
  return done({ files: ordered, manifest, notes });
}

const stopped = (abort?: Abort): boolean => abort?.aborted ?? false;
