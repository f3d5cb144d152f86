import { PDFArray, type PDFDocument, PDFName, PDFRawStream, type PDFRef } from 'pdf-lib';
import { blankMask, encodeG4, type Mask, msbRows } from '../raster/index.ts';
import type { Deflate } from './document.ts';

/** Points beyond which a picture is first judged by some of its rows. */
const LARGE = 4_000_000;
/** Rows of one look, and how many rows are passed over after it. */
const LOOK = 32;
const PASS = 480;
/** How much smaller than Flate those rows must be in Group 4 for the rest to be believed to be, too. */
const CLEARLY = 0.8;

/** Whether Group 4 is so clearly the smaller that deflating the whole picture, by far the dearer of the two, can be left. */
function clearlyG4(mask: Mask, deflate: Deflate): boolean {
  const { width, height } = mask;
  if (width * height < LARGE) return false;
  const looks = Math.floor((height + PASS) / (LOOK + PASS));
  const some = blankMask(width, looks * LOOK);
  for (let i = 0; i < looks; i++) {
    const from = i * (LOOK + PASS) * mask.stride;
    some.data.set(mask.data.subarray(from, from + LOOK * mask.stride), i * LOOK * mask.stride);
  }
  return encodeG4(some).length < CLEARLY * deflate(msbRows(some)).length;
}

/**
 * The mask as a stencil that paints the current colour where there is ink (PDF image mask, one bit, never smoothed), in
 * whichever of CCITT Group 4 and Flate is smaller; of a large picture some rows may tell.
 */
export function addImageMask(doc: PDFDocument, mask: Mask, deflate: Deflate): PDFRef {
  const { context } = doc;
  const [width, height] = [mask.width as number, mask.height as number];
  const g4 = encodeG4(mask);
  const flate = clearlyG4(mask, deflate) ? null : deflate(msbRows(mask));
  const common = {
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    ImageMask: true,
    BitsPerComponent: 1,
    Interpolate: false,
  };
  if (flate === null || g4.length < flate.length) {
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
