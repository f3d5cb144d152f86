import { PDFName } from 'pdf-lib';
import {
  ascii,
  bar,
  type CalibrationFrame,
  calibrationFrame,
  drawShapes,
  type FilmPrinter,
  lettering,
  line,
  place,
  type Shape,
  undoPrinter,
} from '../film/index.ts';
import { filmTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { addSheetPage, addStream, newDocument, saveDocument } from './document.ts';

export interface CalibrationPdfOptions {
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  /** False: the sheet to measure, as the printer prints it. True: the check page, with the printer's error taken out. */
  readonly corrected: boolean;
}

const cross = (x: number, y: number): Shape[] => [
  line(0.2, [x - 5, y], [x + 5, y]),
  line(0.2, [x, y - 5], [x, y + 5]),
];

const words = (text: string, x: number, y: number, height = 2.6): Shape[] =>
  place(lettering(text, height, height * 0.12).shapes, [1, 0, 0, 1, x, y]);

/** A ruler's ticks, whole millimetres from 0 to `length` along +x, ticks to +y; figures are set by `rulerFigures`. */
function ruler(length: number): Shape[] {
  const shapes: Shape[] = [bar(0, -0.06, length, 0.12)];
  for (let x = 0; x <= length; x++) {
    const height = x % 50 === 0 ? 5 : x % 10 === 0 ? 4 : x % 5 === 0 ? 3 : 2;
    shapes.push(bar(x - 0.05, 0, 0.1, height));
  }
  return shapes;
}

const rulerFigures = (length: number, at: (mm: number) => readonly [number, number]): Shape[] => {
  const shapes: Shape[] = [];
  for (let mm = 50; mm < length - 8; mm += 50) shapes.push(...words(String(mm), ...at(mm), 2.2));
  return shapes;
};

/** Lines that fill the frame: grid and diagonals. */
function gridShapes(frame: CalibrationFrame): Shape[] {
  const { x, y, width, height } = frame;
  const shapes: Shape[] = [];
  for (let gx = 20; gx < width; gx += 10)
    shapes.push(line(0.08, [x + gx, y + 10], [x + gx, y + height - 10]));
  for (let gy = 10; gy < height; gy += 10)
    shapes.push(line(0.08, [x + 20, y + gy], [x + width - 10, y + gy]));
  shapes.push(line(0.1, [x, y], [x + width, y + height]), line(0.1, [x + width, y], [x, y + height]));
  return shapes;
}

/** Crosses with their numbers, and rulers along the lower and the left edge. */
function frameShapes(frame: CalibrationFrame): Shape[] {
  const { x, y, width, height } = frame;
  const shapes: Shape[] = [];
  const corners = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ] as const;
  for (const [i, [cx, cy]] of corners.entries()) {
    shapes.push(...cross(cx, cy));
    shapes.push(...words(String(i + 1), cx + (i === 0 || i === 3 ? -5 : 3), cy + (i < 2 ? -6 : 3), 3.2));
  }
  shapes.push(...place(ruler(width), [1, 0, 0, 1, x, y]), ...place(ruler(height), [0, 1, 1, 0, x, y]));
  shapes.push(...rulerFigures(width, (mm) => [x + mm + 0.8, y + 5.4]));
  shapes.push(...rulerFigures(height, (mm) => [x + 5.8, y + mm + 0.8]));
  return shapes;
}

/** mm of the frame that rulers and the legend's own edges take beside its words, and the least height of a capital. */
const BESIDE = 40;
const LEAST = 2.3;

/** Words in lines no wider than `room` mm at a capital of `size` mm, broken at spaces. */
function broken(text: string, size: number, room: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && lettering(longer, size).width <= room) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/**
 * What to measure, in lines that the frame has room for, and the height of a capital in mm: 3 where the sheet is wide, never under
 * 2.3. No lines where the frame is too small for them: the program states the lengths as well.
 */
export function legendLines(
  { width, height, diagonal }: CalibrationFrame,
  corrected: boolean,
): { readonly lines: readonly string[]; readonly size: number } {
  const whole = [
    corrected
      ? 'CHECK PAGE: every length must be as stated'
      : 'CALIBRATION SHEET: print at 100 %, then measure',
    `1 to 2: ${width} mm (width)`,
    `1 to 4: ${height} mm (height)`,
    `1 to 3: ${diagonal.toFixed(1)} mm (rising diagonal)`,
    `2 to 4: ${diagonal.toFixed(1)} mm (falling diagonal)`,
    'Steel rule, cross to cross, to a quarter of a millimetre.',
    corrected
      ? 'If one is off by over 0.3 mm, measure calibration.pdf anew.'
      : 'Same film, same tray and same feed as your films.',
  ];
  const room = width - BESIDE;
  const size = Math.min(3, room / Math.max(...whole.map((text) => lettering(text, 1).width)));
  if (size >= LEAST) return { lines: whole, size };
  const lines = whole.flatMap((text) => broken(text, LEAST, room));
  const fits =
    lines.length * LEAST * 1.9 < height - 30 && lines.every((text) => lettering(text, LEAST).width <= room);
  return { lines: fits ? lines : [], size: LEAST };
}

/** The legend and the white ground it stands on. */
function legend(
  frame: CalibrationFrame,
  corrected: boolean,
): { readonly ground: Shape[]; readonly text: Shape[] } {
  const { x, y, width, height } = frame;
  const { lines, size } = legendLines(frame, corrected);
  if (lines.length === 0) return { ground: [], text: [] };
  const widest = Math.max(...lines.map((text) => lettering(text, size).width));
  const pitch = size * 1.9;
  const [wide, high] = [widest + 6, lines.length * pitch + 3];
  const [left, low] = [x + (width - wide) / 2 + 5, y + (height - high) * 0.72];
  return {
    ground: [bar(left, low, wide, high)],
    text: lines.flatMap((text, i) => words(text, left + 3, low + high - pitch * (i + 1), size)),
  };
}

/** mm a side of the black patch. */
const PATCH = 14;

/** The black patch to look at a lamp through, with what to look for, on its white ground; none on small sheets. */
function densityPatch(frame: CalibrationFrame): { readonly ground: Shape[]; readonly shapes: Shape[] } {
  const { x, y, width, height } = frame;
  if (width < 120 || height < 150) return { ground: [], shapes: [] };
  const lines = [
    'BLACK ENOUGH? Hold this patch close to a lamp.',
    'If you see the lamp or pinholes through it,',
    'light will too: print darker or darken the toner,',
    'and try a step test before you burn a screen.',
  ];
  const size = 2.6;
  const widest = Math.max(...lines.map((text) => lettering(text, size).width));
  const [left, low] = [x + (width - PATCH - 6 - widest) / 2 + 5, y + height * 0.2];
  return {
    ground: [bar(left - 3, low - 3, PATCH + widest + 12, PATCH + 6)],
    shapes: [
      bar(left, low, PATCH, PATCH),
      ...lines.flatMap((text, i) => words(text, left + PATCH + 4, low + PATCH - 2.9 - i * 3.6, size)),
    ],
  };
}

/**
 * The sheet a printer is measured by: four crosses, rulers on both axes, a grid and both diagonals, with the lengths it
 * asks for, and a patch to judge its black by. With `corrected`, the page that proves a calibration. Refused on sheets under about 60 mm.
 */
export async function calibrationPdf(
  printer: FilmPrinter,
  options: CalibrationPdfOptions,
): Promise<Outcome<Uint8Array>> {
  const frame = calibrationFrame(printer);
  if (!frame) {
    return filmTrouble.sheetTooSmallToMeasure();
  }
  const doc = await newDocument('Printer calibration', 'Print at 100 %, measure, enter the four lengths');
  const { width, height } = printer.sheet;
  const page = addSheetPage(doc, width, height);
  const { ground, text } = legend(frame, options.corrected);
  const patch = densityPatch(frame);
  const draw = (shapes: readonly Shape[]) =>
    drawShapes(options.corrected ? place(shapes, undoPrinter(printer)) : shapes);
  const content = [
    '0 g 0 G',
    draw(gridShapes(frame)),
    '1 g',
    draw([...ground, ...patch.ground]),
    '0 g',
    draw([...text, ...patch.shapes, ...frameShapes(frame)]),
  ].join('\n');
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(content), options.deflate));
  return done(await saveDocument(doc));
}
