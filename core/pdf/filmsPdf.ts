import { PDFName } from 'pdf-lib';
import { apply, type FaceLayout, type FilmLayout, pageMask, type SheetLayout } from '../film/index.ts';
import type { Abort, Progress } from '../units/index.ts';
import { ascii, drawShapes, num, PT } from './content.ts';
import { addSheetPage, addStream, markTrapped, newDocument, saveDocument } from './document.ts';
import { addImageMask } from './imageMask.ts';

export interface FilmsPdfOptions {
  readonly jobName: string;
  /** zlib-wrapped deflate, the same bytes everywhere. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  readonly progress?: Progress;
  readonly abort?: Abort;
}

/**
 * A picture's edges lie on whole device pixels; renderers that take in every pixel they touch would add a row there. It is
 * drawn this many pixels smaller on each side (about a micrometre), which no pixel's middle notices.
 */
export const INSET_PX = 0.02;

/** Where the window lies on its page, mm: lower left corner and size. */
function windowOnPage(sheet: SheetLayout) {
  const { x, y, width, height } = sheet.window;
  const [x0, y0] = apply(sheet.filmToPage, x, y);
  const [x1, y1] = apply(sheet.filmToPage, x + width, y + height);
  return { x: Math.min(x0, x1), y: Math.min(y0, y1), width: Math.abs(x1 - x0), height: Math.abs(y1 - y0) };
}

function sheetContent(layout: FaceLayout, sheet: SheetLayout): string {
  const at = windowOnPage(sheet);
  const inset = (INSET_PX * 72) / layout.dpi;
  const [x, y, w, h] = [at.x * PT, at.y * PT, at.width * PT, at.height * PT];
  return [
    '0 g 0 G',
    'q',
    `${num(w - 2 * inset)} 0 0 ${num(h - 2 * inset)} ${num(x + inset)} ${num(y + inset)} cm`,
    '/Film Do',
    'Q',
    'q',
    `${num(x)} ${num(y)} ${num(w)} ${num(h)} re W n`,
    drawShapes(sheet.marks),
    'Q',
    drawShapes(sheet.labels),
  ].join('\n');
}

/**
 * films.pdf: one page a sheet, faces in the order given, films in pull order. The film is a one-bit stencil at its own
 * resolution; marks and labels are vectors. The same layouts give the same bytes. Stops early, with what is done so far
 * thrown away, when `abort` says so: then the promise resolves to an empty array.
 */
export async function filmsPdf(
  layouts: readonly FaceLayout[],
  options: FilmsPdfOptions,
): Promise<Uint8Array> {
  const doc = await newDocument(`${options.jobName}: films`, 'Films for screen printing, one page a sheet');
  const total = layouts.reduce((sum, face) => sum + face.films.length, 0);
  let made = 0;
  for (const layout of layouts) {
    for (const film of layout.films) {
      options.progress?.(made / total, `film ${made + 1} of ${total}, writing ${film.sheets.length} sheets`);
      for (const sheet of film.sheets) {
        if (options.abort?.aborted) return new Uint8Array(0);
        addFilmPage(doc, layout, film, sheet, options);
      }
      made++;
    }
  }
  markTrapped(doc);
  return saveDocument(doc);
}

function addFilmPage(
  doc: Awaited<ReturnType<typeof newDocument>>,
  layout: FaceLayout,
  film: FilmLayout,
  sheet: SheetLayout,
  options: FilmsPdfOptions,
): void {
  const { width, height } = layout.printer.sheet;
  const page = addSheetPage(doc, width, height);
  const image = addImageMask(doc, pageMask(film, sheet), options.deflate, null);
  page.node.set(PDFName.of('Resources'), doc.context.obj({ XObject: { Film: image } }));
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(sheetContent(layout, sheet)), options.deflate));
}
