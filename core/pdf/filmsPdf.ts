import { PDFName, type PDFRef } from 'pdf-lib';
import {
  apply,
  type FaceLayout,
  pageMask,
  type SheetLayout,
  type Stencil,
  stencilOf,
} from '../film/index.ts';
import type { Abort, Progress } from '../units/index.ts';
import { ascii, drawShapes, num, PT } from './content.ts';
import { addSheetPage, addStream, markTrapped, newDocument, saveDocument } from './document.ts';
import { addStencil } from './imageMask.ts';

export interface FilmsPdfOptions {
  readonly jobName: string;
  /** zlib-wrapped deflate, the same bytes everywhere. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  readonly progress?: Progress;
  readonly abort?: Abort;
  /** Sheets already packed elsewhere; the others are packed here. */
  readonly stencils?: ReadonlyMap<SheetLayout, Stencil>;
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

function sheetContent(layout: FaceLayout, sheet: SheetLayout, image: string): string {
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
    'q',
    `${[...x.rest, ...y.rest, ...origin].map(num).join(' ')} cm`,
    `/${image} Do`,
    'Q',
    'q',
    `${corners.join(' ')} h W n`,
    drawShapes(sheet.marks),
    'Q',
    drawShapes(sheet.labels),
  ].join('\n');
}

/**
 * films.pdf: one page a sheet of transparency, faces in the order given, films in pull order. The film is a one-bit stencil at its own
 * resolution; marks and labels are vectors. The same layouts give the same bytes. Stops early, with what is done so far
 * thrown away, when `abort` says so: then the promise resolves to an empty array.
 */
export async function filmsPdf(
  layouts: readonly FaceLayout[],
  options: FilmsPdfOptions,
): Promise<Uint8Array> {
  const doc = await newDocument(`${options.jobName}: films`, 'Films for screen printing, one page a sheet');
  const total = layouts.reduce((sum, face) => sum + face.pages, 0);
  let made = 0;
  for (const layout of layouts) {
    for (let page = 0; page < layout.pages; page++) {
      if (options.abort?.aborted) return new Uint8Array(0);
      made++;
      options.progress?.((made - 1) / total, `writing sheet ${made} of ${total}`);
      addFilmPage(doc, layout, page, options);
    }
  }
  markTrapped(doc);
  return saveDocument(doc);
}

/** One sheet of transparency: the part of a film it shows, or the small films that share it. */
function addFilmPage(
  doc: Awaited<ReturnType<typeof newDocument>>,
  layout: FaceLayout,
  index: number,
  options: FilmsPdfOptions,
): void {
  const { width, height } = layout.printer.sheet;
  const page = addSheetPage(doc, width, height);
  const content = ['0 g 0 G'];
  const images: Record<string, PDFRef> = {};
  for (const film of layout.films) {
    for (const sheet of film.sheets) {
      if (sheet.page !== index) continue;
      const name = `Film${Object.keys(images).length + 1}`;
      const packed = options.stencils?.get(sheet) ?? stencilOf(pageMask(film, sheet), options.deflate);
      images[name] = addStencil(doc, packed);
      content.push(sheetContent(layout, sheet, name));
    }
  }
  for (const lines of layout.cutLines) if (lines.page === index) content.push(drawShapes(lines.shapes));
  page.node.set(PDFName.of('Resources'), doc.context.obj({ XObject: images }));
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(content.join('\n')), options.deflate));
}
