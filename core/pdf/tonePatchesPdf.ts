import { type PDFDict, PDFName } from 'pdf-lib';
import {
  ascii,
  bar,
  drawShapes,
  type FilmPrinter,
  lettering,
  num,
  PT,
  place,
  type Shape,
} from '../film/index.ts';
import { halftoneMask, type Screen } from '../raster/index.ts';
import { filmTrouble } from '../sentences/index.ts';
import { done, MM_PER_INCH, type Outcome } from '../units/index.ts';
import { addSheetPage, addStream, type Deflate, newDocument, saveDocument } from './document.ts';
import { addImageMask } from './imageMask.ts';

/** Tones of the film, percent; the solid is what the others are measured against. Common practice, no source. */
export const PATCH_TONES = [5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100] as const;
/** mm a side of a patch, and from one to the next. */
const SIDE = 24;
const PITCH = 36;

const words = (text: string, x: number, y: number, height: number): Shape[] =>
  place(lettering(text, height, height * 0.12).shapes, [1, 0, 0, 1, x, y]);

/**
 * The film page of a tone test: a patch of each of `PATCH_TONES` in the job's own screen, just as the film holds it, with no gain
 * left out. Printed and measured, it tells how much darker the press prints. Refused where the sheet holds fewer than two patches
 * side by side, or not all below each other.
 */
export async function tonePatchesPdf(
  printer: FilmPrinter,
  options: { readonly screen: Omit<Screen, 'dpi'>; readonly dpi: number; readonly deflate: Deflate },
): Promise<Outcome<Uint8Array>> {
  const { sheet, margin } = printer;
  const { screen, dpi, deflate } = options;
  const left = margin + 8;
  const across = Math.floor((sheet.width - left - margin - SIDE) / PITCH) + 1;
  const rows = Math.ceil(PATCH_TONES.length / Math.max(1, across));
  const head = margin + 40;
  if (across < 2 || head + rows * PITCH + margin > sheet.height)
    return filmTrouble.tonePatchesTooLarge(PATCH_TONES.length, sheet.width, sheet.height);
  const doc = await newDocument('Tone patches', 'Print on film as your films, then print and measure');
  const page = addSheetPage(doc, sheet.width, sheet.height);
  const top = sheet.height - margin;
  const points = Math.round((SIDE / MM_PER_INCH) * dpi);
  const pictures: PDFDict = doc.context.obj({});
  const draws: string[] = [];
  const black: Shape[] = [
    ...words('TONE PATCHES', left, top - 9, 4.2),
    ...words(
      `${Number(screen.lpi.toFixed(2))} lines an inch, ${screen.dot} dots, ${Number(screen.angle.toFixed(1))} degrees; figures: percent of black on the film.`,
      left,
      top - 15,
      2.4,
    ),
    ...words(
      'Burn and print these with the mesh, ink and stroke of your run, on the same wood, and let them dry.',
      left,
      top - 20,
      2.4,
    ),
    ...words(
      'Measure how dark each came out: bare wood is 0, the patch 100 is 100. From a flat scan in linear light:',
      left,
      top - 25,
      2.4,
    ),
    ...words(
      'printed = (bare - patch) / (bare - solid). Enter the pairs with your tones: Inks, Tones darker on the wood.',
      left,
      top - 30,
      2.4,
    ),
  ];
  PATCH_TONES.forEach((tone, i) => {
    const x = left + (i % across) * PITCH;
    const y = top - 40 - Math.floor(i / across) * PITCH - SIDE;
    const data = new Uint8Array(points * points).fill(Math.round((tone / 100) * 255));
    const mask = halftoneMask({ width: points, height: points, data }, { ...screen, dpi });
    pictures.set(PDFName.of(`Tone${tone}`), addImageMask(doc, mask, deflate));
    const side = (points / dpi) * MM_PER_INCH * PT;
    draws.push(`q ${num(side)} 0 0 ${num(side)} ${num(x * PT)} ${num(y * PT)} cm /Tone${tone} Do Q`);
    black.push(...words(String(tone), x, y - 4.6, 3.2), bar(x, y - 0.8, SIDE, 0.2));
  });
  page.node.set(PDFName.of('Resources'), doc.context.obj({ XObject: pictures }));
  const content = ['0 g 0 G', ...draws, drawShapes(black)].join('\n');
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(content), deflate));
  return done(await saveDocument(doc));
}
