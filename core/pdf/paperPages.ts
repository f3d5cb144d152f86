import { type PDFDocument, PDFName, PDFRef } from 'pdf-lib';
import { FACE_NAMES, type PaperImage, type PaperPage } from '../paper/index.ts';
import { addPacked, addSheetPage } from './document.ts';
import { addStencil } from './imageMask.ts';

/** The faces of type in a document. */
export interface Fonts {
  readonly plain: PDFRef;
  readonly bold: PDFRef;
}

/**
 * The two faces that every PDF reader has. Not by the library's own embedding, which unpacks their metrics first: nothing here is measured by it.
 */
export function standardFonts({ context }: PDFDocument): Fonts {
  const font = (name: string) =>
    context.register(
      context.obj({ Type: 'Font', Subtype: 'Type1', BaseFont: name, Encoding: 'WinAnsiEncoding' }),
    );
  return { plain: font(FACE_NAMES.plain), bold: font(FACE_NAMES.bold) };
}

/** Writes pages into the document, those that follow from one another together: their pictures first, then page by page. */
export function addPaperPages(doc: PDFDocument, fonts: Fonts, pages: readonly PaperPage[]): void {
  const { context } = doc;
  const placed = (image: PaperImage) => (image instanceof PDFRef ? image : addStencil(doc, image));
  const images = pages.map((page) =>
    Object.fromEntries(page.images.map((image, i) => [`I${i + 1}`, placed(image)])),
  );
  for (const [i, { width, height, content }] of pages.entries()) {
    const page = addSheetPage(doc, width, height);
    page.node.set(
      PDFName.of('Resources'),
      context.obj({ Font: { P: fonts.plain, B: fonts.bold }, XObject: images[i]! }),
    );
    page.node.set(PDFName.of('Contents'), addPacked(doc, content));
  }
}
