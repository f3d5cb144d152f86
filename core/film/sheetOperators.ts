import type { SheetLayout } from './faceLayout.ts';
import { ascii, drawShapes, num, PT } from './operators.ts';
import { apply } from './shape.ts';

/** Everything on a film is as black as can be. */
export const BLACK = '0 g 0 G';

/**
 * A picture's edges lie on whole device pixels; renderers that take in every pixel they touch would add a row there. It is
 * drawn this many pixels smaller on each side (about a micrometre), which no pixel's middle notices.
 */
export const INSET_PX = 0.02;

/** The window's corners on its page in points, lower left of the page's own picture first, counter-clockwise. */
function windowOnPage(sheet: SheetLayout): [number, number][] {
  const { x, y, width, height } = sheet.window;
  const at = (u: number, v: number) => apply(sheet.filmToPage, u, v).map((mm) => mm * PT) as [number, number];
  const [a, b, c, d] = [at(x, y), at(x + width, y), at(x + width, y + height), at(x, y + height)];
  // As the picture was turned and mirrored for the page, so are the corners.
  const turned = sheet.turn === 0 ? [a, b, c, d] : [d, a, b, c];
  return sheet.mirror ? [turned[1]!, turned[0]!, turned[3]!, turned[2]!] : turned;
}

/** The operators that draw a sheet of transparency: its picture, the image of that name, its marks and its labels. */
export function sheetOperators(dpi: number, sheet: SheetLayout, image: string): string {
  const [low, right, far, up] = windowOnPage(sheet) as [
    [number, number],
    [number, number],
    [number, number],
    [number, number],
  ];
  const inset = (INSET_PX * 72) / dpi;
  const axis = (to: [number, number]) => {
    const [dx, dy] = [to[0] - low[0], to[1] - low[1]];
    const part = inset / Math.hypot(dx, dy);
    return {
      inset: [dx * part, dy * part] as const,
      rest: [dx * (1 - 2 * part), dy * (1 - 2 * part)] as const,
    };
  };
  const [x, y] = [axis(right), axis(up)];
  const origin = [low[0] + x.inset[0] + y.inset[0], low[1] + x.inset[1] + y.inset[1]];
  const corners = [low, right, far, up].map(([X, Y], i) => `${num(X)} ${num(Y)} ${i === 0 ? 'm' : 'l'}`);
  return [
    'q',
    `${[...x.rest, ...y.rest, ...origin].map(num).join(' ')} cm`,
    `/${image} Do`,
    'Q',
    'q',
    `${corners.join(' ')} h W n`,
    drawShapes(sheet.marks),
    'Q',
    drawShapes(sheet.labels),
  ].join('\n');
}

/** What a sheet draws that has its page to itself, packed; `deflate` as for streams of the document. */
export const drawSheet = (
  dpi: number,
  sheet: SheetLayout,
  deflate: (bytes: Uint8Array) => Uint8Array,
): Uint8Array => deflate(ascii([BLACK, sheetOperators(dpi, sheet, 'Film1')].join('\n')));
