import {
  PDFDict,
  PDFDocument,
  type PDFHexString,
  PDFName,
  type PDFPage,
  PDFRawStream,
  type PDFRef,
} from 'pdf-lib';
import { ascii, PT } from '../film/index.ts';

export type Deflate = (bytes: Uint8Array) => Uint8Array;

/** A document whose bytes depend on nothing but its content: no dates, no identifiers. */
export async function newDocument(title: string, subject: string): Promise<PDFDocument> {
  const doc = await PDFDocument.create({ updateMetadata: false });
  doc.setTitle(title);
  doc.setSubject(subject);
  doc.setCreator('Kickflat');
  doc.setProducer('Kickflat');
  return doc;
}

/** States that traps are already in the art (/Trapped /True), so that no later step adds its own. */
export function markTrapped(doc: PDFDocument): void {
  const info = doc.context.lookup(doc.context.trailerInfo.Info);
  if (info instanceof PDFDict) info.set(PDFName.of('Trapped'), PDFName.of('True'));
}

/** A page of exact size, mm: media, crop, bleed, trim and art box alike. */
export function addSheetPage(doc: PDFDocument, width: number, height: number): PDFPage {
  const page = doc.addPage([width * PT, height * PT]);
  const box = doc.context.obj([0, 0, width * PT, height * PT]);
  for (const name of ['MediaBox', 'CropBox', 'BleedBox', 'TrimBox', 'ArtBox'])
    page.node.set(PDFName.of(name), box);
  return page;
}

/** A stream with the given dictionary entries, deflated. */
export function addStream(
  doc: PDFDocument,
  bytes: Uint8Array,
  deflate: Deflate,
  entries: Record<string, PDFName | PDFHexString | PDFRef | PDFDict | number | string | boolean> = {},
): PDFRef {
  return addPacked(doc, deflate(bytes), entries);
}

/** A stream that is deflated already. */
export function addPacked(
  doc: PDFDocument,
  packed: Uint8Array,
  entries: Record<string, PDFName | PDFHexString | PDFRef | PDFDict | number | string | boolean> = {},
): PDFRef {
  const dict = doc.context.obj({ ...entries, Filter: 'FlateDecode' });
  dict.set(PDFName.of('Length'), doc.context.obj(packed.length));
  return doc.context.register(streamOf(dict as PDFDict, packed));
}

/** What stands about a stream's bytes (ISO 32000-1, 7.3.8.1). */
const BEFORE = ascii('\nstream\n');
const AFTER = ascii('\nendstream');

/** A stream that is written in one go: the library's own copies megabytes byte by byte. */
export function streamOf(dict: PDFDict, bytes: Uint8Array): PDFRawStream {
  const stream = PDFRawStream.of(dict, bytes);
  stream.copyBytesInto = (buffer, offset) => {
    let at = offset + dict.copyBytesInto(buffer, offset);
    for (const part of [BEFORE, bytes, AFTER]) {
      buffer.set(part, at);
      at += part.length;
    }
    return at - offset;
  };
  return stream;
}

export const saveDocument = (doc: PDFDocument): Promise<Uint8Array> =>
  doc.save({ useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false });
