import { PDFArray, type PDFDocument, PDFName, PDFRawStream, type PDFRef } from 'pdf-lib';
import { encodeG4, type Mask, msbRows } from '../raster/index.ts';
import type { Deflate } from './document.ts';

/**
 * The mask as a stencil that paints the current colour where there is ink (PDF image mask, one bit, never smoothed), in
 * whichever of CCITT Group 4 and Flate is smaller.
 */
export function addImageMask(doc: PDFDocument, mask: Mask, deflate: Deflate): PDFRef {
  const { context } = doc;
  const [width, height] = [mask.width as number, mask.height as number];
  const flate = deflate(msbRows(mask));
  const g4 = encodeG4(mask);
  const common = {
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    ImageMask: true,
    BitsPerComponent: 1,
    Interpolate: false,
  };
  if (g4.length < flate.length) {
    const dict = context.obj({
      ...common,
      Filter: 'CCITTFaxDecode',
      DecodeParms: { K: -1, Columns: width, Rows: height, BlackIs1: false },
      Length: g4.length,
    });
    return context.register(PDFRawStream.of(dict, g4));
  }
  const dict = context.obj({ ...common, Filter: 'FlateDecode', Length: flate.length });
  const decode = PDFArray.withContext(context);
  decode.push(context.obj(1));
  decode.push(context.obj(0));
  dict.set(PDFName.of('Decode'), decode);
  return context.register(PDFRawStream.of(dict, flate));
}
