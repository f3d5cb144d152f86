import type { PDFDocument, PDFRef } from 'pdf-lib';
import { type Stencil, stencilOf } from '../film/index.ts';
import type { Mask } from '../raster/index.ts';
import { type Deflate, streamOf } from './document.ts';

/** The mask as a stencil that paints the current colour where there is ink; see `stencilOf`. */
export const addImageMask = (doc: PDFDocument, mask: Mask, deflate: Deflate): PDFRef =>
  addStencil(doc, stencilOf(mask, deflate));

/** Paints the current colour where the stencil has ink (PDF image mask, one bit, never smoothed). */
export function addStencil(doc: PDFDocument, { width, height, filter, bytes }: Stencil): PDFRef {
  const { context } = doc;
  const common = {
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    ImageMask: true,
    BitsPerComponent: 1,
    Interpolate: false,
  };
  if (filter === 'g4') {
    const dict = context.obj({
      ...common,
      Filter: 'CCITTFaxDecode',
      DecodeParms: { K: -1, Columns: width, Rows: height, BlackIs1: false },
      Length: bytes.length,
    });
    return context.register(streamOf(dict, bytes));
  }
  const dict = context.obj({ ...common, Filter: 'FlateDecode', Length: bytes.length });
  return context.register(streamOf(dict, bytes));
}
