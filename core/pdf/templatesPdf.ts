import { PDFName } from 'pdf-lib';
import {
  type Affine,
  apply,
  ascii,
  drawShapes,
  type FilmPrinter,
  lettering,
  line,
  num,
  PT,
  place,
  type Shape,
  undoPrinter,
} from '../film/index.ts';
import type { Drawing } from '../press/index.ts';
import { filmTrouble } from '../sentences/index.ts';
import { type Box, done, type Outcome } from '../units/index.ts';
import { addSheetPage, addStream, type Deflate, newDocument, saveDocument } from './document.ts';
import { drawingShapes, rulerStrip } from './drawingShapes.ts';
import { type Tiling, tilesOf } from './tiles.ts';

/** mm at the foot of a sheet for its name and ruler. */
const FOOT = 15;

/** Crosses that two neighbouring sheets both show, drawing mm after the turn. */
function matchMarks({ tiles, seamsX, seamsY }: Tiling): Shape[] {
  const cross = (x: number, y: number): Shape[] => [
    line(0.15, [x - 4, y], [x + 4, y]),
    line(0.15, [x, y - 4], [x, y + 4]),
  ];
  const shapes: Shape[] = [];
  const rows = tiles.filter((t) => t.column === 0);
  const columns = tiles.filter((t) => t.row === 0);
  for (const x of seamsX)
    for (const { window } of rows)
      for (const share of [0.2, 0.8]) shapes.push(...cross(x, window.y + window.height * share));
  for (const y of seamsY)
    for (const { window } of columns)
      for (const share of [0.2, 0.8]) shapes.push(...cross(window.x + window.width * share, y));
  return shapes;
}

const clipTo = (corners: readonly (readonly [number, number])[]): string =>
  `${corners.map(([x, y], i) => `${num(x * PT)} ${num(y * PT)} ${i === 0 ? 'm' : 'l'}`).join(' ')} h W n`;

const cornersOf = ({ x, y, width, height }: Box): (readonly [number, number])[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/**
 * Workshop drawings at 1:1 on as many sheets of the film printer as they take, its scale error taken out. Every sheet has
 * a window's edge to cut along, crosses shared with its neighbours, its place in the whole and a 100 mm ruler.
 */
export async function templatesPdf(
  drawings: readonly Drawing[],
  printer: FilmPrinter,
  options: { readonly title: string; readonly deflate: Deflate },
): Promise<Outcome<Uint8Array>> {
  if (drawings.length === 0) return filmTrouble.noDrawing();
  const { sheet, margin } = printer;
  const doc = await newDocument(
    options.title,
    'Print at 100 %; the ruler on every sheet must measure 100 mm',
  );
  const undo = undoPrinter(printer);
  const edge = margin + 2;
  for (const drawing of drawings) {
    const tiled = tilesOf(drawing.box, sheet.width - 2 * edge, sheet.height - 2 * edge - FOOT);
    if (!tiled.ok) return tiled;
    const { tiles, turned, columns, rows } = tiled.value;
    const turn: Affine = turned ? [0, 1, -1, 0, 0, 0] : [1, 0, 0, 1, 0, 0];
    const shapes = [...place(drawingShapes(drawing), turn), ...matchMarks(tiled.value)];
    tiles.forEach(({ window, column, row }, i) => {
      const page = addSheetPage(doc, sheet.width, sheet.height);
      const toPage: Affine = [1, 0, 0, 1, edge - window.x, edge + FOOT - window.y];
      const put = (list: readonly Shape[], by: Affine) => drawShapes(place(place(list, by), undo));
      const frame = cornersOf(window).map(([x, y]) => apply(undo, ...apply(toPage, x, y)));
      const corners = cornersOf(window);
      const label = `${drawing.title}: sheet ${i + 1} of ${tiles.length}${tiles.length > 1 ? ` (column ${column + 1} of ${columns}, row ${row + 1} of ${rows}, row 1 on top)` : ''}`;
      const words = (text: string, x: number, y: number, height: number) => {
        const { shapes: letters, width } = lettering(text, height);
        const fit = Math.min(1, (sheet.width - 2 * edge) / width);
        return place(letters, [fit, 0, 0, fit, x, y]);
      };
      const foot = [
        ...words(label, edge, edge + 9.5, 2.6),
        ...place(rulerStrip(100), [1, 0, 0, 1, edge, edge + 1]),
        ...words('100 mm. Print at 100 %, never fitted.', edge + 104, edge + 1, 2.4),
      ];
      const content = [
        '0 g 0 G',
        'q',
        clipTo(frame),
        put(shapes, toPage),
        'Q',
        put([line(0.1, ...corners, corners[0] as readonly [number, number])], toPage),
        put(foot, [1, 0, 0, 1, 0, 0]),
      ].join('\n');
      page.node.set(PDFName.of('Contents'), addStream(doc, ascii(content), options.deflate));
    });
  }
  return done(await saveDocument(doc));
}
