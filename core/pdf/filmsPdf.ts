import { PDFName, type PDFRef } from 'pdf-lib';
import {
  ascii,
  BLACK,
  drawShapes,
  type FaceLayout,
  pageMask,
  type SheetLayout,
  type Stencil,
  sheetOperators,
  stencilOf,
} from '../film/index.ts';
import type { Abort, Progress } from '../units/index.ts';
import { addPacked, addSheetPage, addStream, markTrapped, newDocument, saveDocument } from './document.ts';
import { addStencil } from './imageMask.ts';

export interface FilmsPdfOptions {
  readonly jobName: string;
  /** zlib-wrapped deflate, the same bytes everywhere. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  readonly progress?: Progress;
  readonly abort?: Abort;
  /** Sheets already packed elsewhere; the others are packed here. */
  readonly stencils?: ReadonlyMap<SheetLayout, Stencil> | undefined;
  /** What sheets draw that have their page to themselves, by `drawSheet`, where that was done elsewhere. */
  readonly drawn?: ReadonlyMap<SheetLayout, Uint8Array> | undefined;
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
  const content = [BLACK];
  const images: Record<string, PDFRef> = {};
  const sheets = layout.films.flatMap((film) =>
    film.sheets.filter((sheet) => sheet.page === index).map((sheet) => ({ film, sheet })),
  );
  const lines = layout.cutLines.filter((cut) => cut.page === index);
  const alone = sheets.length === 1 && lines.length === 0;
  const drawn = alone ? options.drawn?.get(sheets[0]!.sheet) : undefined;
  for (const [i, { film, sheet }] of sheets.entries()) {
    const name = `Film${i + 1}`;
    const packed = options.stencils?.get(sheet) ?? stencilOf(pageMask(film, sheet), options.deflate);
    images[name] = addStencil(doc, packed);
    if (!drawn) content.push(sheetOperators(layout.dpi, sheet, name));
  }
  for (const { shapes } of lines) content.push(drawShapes(shapes));
  page.node.set(PDFName.of('Resources'), doc.context.obj({ XObject: images }));
  page.node.set(
    PDFName.of('Contents'),
    drawn ? addPacked(doc, drawn) : addStream(doc, ascii(content.join('\n')), options.deflate),
  );
}
