import type { PDFDocument, PDFRef } from 'pdf-lib';
import { PDFName } from 'pdf-lib';
import type { Picture } from '../raster/index.ts';
import { addStream, type Deflate } from './document.ts';

/** A picture as an RGB image, laid over white where it is transparent. */
export function addPicture(doc: PDFDocument, picture: Picture, deflate: Deflate): PDFRef {
  const { width, height, data } = picture;
  const rgb = new Uint8Array((width as number) * (height as number) * 3);
  for (let i = 0, o = 0; o < rgb.length; i += 4, o += 3) {
    const alpha = (data[i + 3] as number) / 255;
    for (let c = 0; c < 3; c++) rgb[o + c] = Math.round((data[i + c] as number) * alpha + 255 * (1 - alpha));
  }
  return addStream(doc, rgb, deflate, {
    Type: PDFName.of('XObject'),
    Subtype: PDFName.of('Image'),
    Width: width as number,
    Height: height as number,
    ColorSpace: PDFName.of('DeviceRGB'),
    BitsPerComponent: 8,
  });
}
