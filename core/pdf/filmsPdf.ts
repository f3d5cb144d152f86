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

/** The window's corners on its page in points, lower left of the page's own picture first, counter-clockwise. */
function windowOnPage(sheet: SheetLayout): [number, number][] {
  const { x, y, width, height } = sheet.window;
  const at = (u: number, v: number) => apply(sheet.filmToPage, u, v).map((mm) => mm * PT) as [number, number];
  const [a, b, c, d] = [at(x, y), at(x + width, y), at(x + width, y + height), at(x, y + height)];
  // As the picture was turned and mirrored for the page, so are the corners.
  const turned = sheet.turn === 0 ? [a, b, c, d] : [d, a, b, c];
  return sheet.mirror ? [turned[1]!, turned[0]!, turned[3]!, turned[2]!] : turned;
}

function sheetContent(layout: FaceLayout, sheet: SheetLayout): string {
  const [low, right, far, up] = windowOnPage(sheet) as [
    [number, number],
    [number, number],
    [number, number],
    [number, number],
  ];
  const inset = (INSET_PX * 72) / layout.dpi;
  const axis = (to: [number, number]) => {
    const [dx, dy] = [to[0] - low[0], to[1] - low[1]];
    const part = inset / Math.hypot(dx, dy);
    return {
      inset: [dx * part, dy * part] as const,
      rest: [dx * (1 - 2 * part), dy * (1 - 2 * part)] as const,
    };
  };
  const [x, y] = [axis(right), axis(up)];
  const origin = [low[0] + x.inset[0] + y.inset[0], low[1] + x.inset[1] + y.inset[1]];
  const corners = [low, right, far, up].map(([X, Y], i) => `${num(X)} ${num(Y)} ${i === 0 ? 'm' : 'l'}`);
  return [
    '0 g 0 G',
    'q',
    `${[...x.rest, ...y.rest, ...origin].map(num).join(' ')} cm`,
    '/Film Do',
    'Q',
    'q',
    `${corners.join(' ')} h W n`,
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
  const image = addImageMask(doc, pageMask(film, sheet), options.deflate);
  page.node.set(PDFName.of('Resources'), doc.context.obj({ XObject: { Film: image } }));
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(sheetContent(layout, sheet)), options.deflate));
}
