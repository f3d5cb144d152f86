import { PDFName } from 'pdf-lib';
import {
  ascii,
  bar,
  drawShapes,
  type FilmPrinter,
  lettering,
  line,
  place,
  ringLine,
  type Shape,
  undoPrinter,
} from '../film/index.ts';
import { filmTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { addSheetPage, addStream, type Deflate, newDocument, saveDocument } from './document.ts';
import { rulerStrip } from './drawingShapes.ts';

/** mm: line and gap widths of each strip, and dots across. */
const WIDTHS = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1] as const;
const SLOT = 15;

const words = (text: string, x: number, y: number, height: number): Shape[] =>
  place(lettering(text, height, height * 0.12).shapes, [1, 0, 0, 1, x, y]);

/** One strip's test figure, from its lower left corner: black lines on clear film, and clear gaps in a black bar. */
function figure(x: number, y: number, height: number): { black: Shape[]; clear: Shape[] } {
  const black: Shape[] = [];
  const clear: Shape[] = [];
  const half = height / 2 - 1.2;
  black.push(bar(x, y + 0.8, WIDTHS.length * SLOT, half));
  WIDTHS.forEach((width, i) => {
    const left = x + i * SLOT;
    for (let k = 0; k < 3; k++) {
      const at = left + 2 + k * 3.2;
      black.push(bar(at, y + half + 1.6, width, half));
      clear.push(bar(at, y + 1.6, width, half - 1.6));
    }
    const [dx, r] = [left + 12.6, Math.max(width, 0.2) / 2];
    black.push({ kind: 'fill', points: ringLine(dx, y + half * 1.5 + 1.6, r, 0).points });
    clear.push({ kind: 'fill', points: ringLine(dx, y + half / 2 + 1.2, r, 0).points });
  });
  return { black, clear };
}

/**
 * The film page of an exposure step test: numbered strips with the same lines, gaps and dots, and between them the edge to
 * lay a card to. Black is what holds back the light. Read from strip 1, which gets the least light.
 */
export async function stepTestPdf(
  printer: FilmPrinter,
  options: { readonly strips: number; readonly factor: number; readonly deflate: Deflate },
): Promise<Outcome<Uint8Array>> {
  const { sheet, margin } = printer;
  const { strips, factor } = options;
  const left = margin + 14;
  const wide = WIDTHS.length * SLOT;
  const foot = margin + 26;
  const head = margin + 22;
  const each = Math.min(28, (sheet.height - foot - head) / strips);
  if (sheet.width < left + wide + margin + 8 || each < 9)
    return filmTrouble.stepTestTooLarge(strips, sheet.width, sheet.height);
  const doc = await newDocument('Exposure step test', 'Print on film at the darkest setting');
  const page = addSheetPage(doc, sheet.width, sheet.height);
  const black: Shape[] = [];
  const clear: Shape[] = [];
  for (let i = 0; i < strips; i++) {
    const y = foot + i * each;
    const drawn = figure(left, y + 0.6, each - 1.2);
    black.push(...drawn.black, ...words(String(i + 1), margin + 3, y + each / 2 - 3, 6));
    clear.push(...drawn.clear);
    black.push(line(0.25, [margin + 1, y], [left + wide + 8, y]));
    // Arrows at the card's edge, outside the figures.
    black.push({
      kind: 'fill',
      points: [
        [left + wide + 8, y],
        [left + wide + 3, y + 1.6],
        [left + wide + 3, y - 1.6],
      ],
    });
  }
  const top = foot + strips * each;
  black.push(line(0.25, [margin + 1, top], [left + wide + 8, top]));
  WIDTHS.forEach((width, i) => {
    black.push(...words(String(width), left + i * SLOT + 2, top + 2.4, 2.4));
  });
  black.push(
    ...words('EXPOSURE STEP TEST', margin + 3, top + 12, 4.2),
    ...words(
      `Strip 1 least light; each next one x ${Number(factor.toFixed(3))}. Widths in mm.`,
      margin + 3,
      top + 6.8,
      2.6,
    ),
    ...words(
      'Burn all open for strip 1; then cover strip 1 with card to the line, burn on, cover 2, and so on.',
      margin + 3,
      margin + 16.5,
      2.2,
    ),
    ...words(
      'Lamp off while you move the card. Best strip: finest lines and gaps kept, nothing soft in the wash.',
      margin + 3,
      margin + 12,
      2.2,
    ),
    ...place(rulerStrip(100), [1, 0, 0, 1, margin + 3, margin + 4]),
    ...words('100 mm', margin + 106, margin + 4, 2.4),
  );
  const undo = undoPrinter(printer);
  const content = ['0 g 0 G', drawShapes(place(black, undo)), '1 g 1 G', drawShapes(place(clear, undo))].join(
    '\n',
  );
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(content), options.deflate));
  return done(await saveDocument(doc));
}
