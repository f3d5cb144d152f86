import { line, type Shape, vernierScale } from '../film/index.ts';
import { ACCENT, SOFT } from './assemblyGuide.ts';
import { SHARED } from './filmPicture.ts';
import { BLACK, type Paper, type Tint } from './paper.ts';

/** mm of the picture: its height, where the right sheet begins and the left one ends, and where that one does. */
const [HIGH, STRIP, STRIP_END, END] = [24, 14, 31, 46];
/** mm from the sheets to the words. */
const WORDS = 50;
/** mm up to the middle of the sheets’ numbers, below what is pointed at. */
const NUMBER = 8;
const WHITE: Tint = [1, 1, 1];

const cross = (x: number, y: number): Shape[] => [
  line(0.25, [x - 1.5, y], [x + 1.5, y]),
  line(0.25, [x, y - 1.5], [x, y + 1.5]),
];

/** Two sheets where they meet, with the signs in their shared strip and what each is called; lower left corner at (x, y). */
export function drawSigns(paper: Paper, x: number, y: number): void {
  const middle = (STRIP + STRIP_END) / 2;
  const put = (shapes: readonly Shape[], tint: Tint) =>
    paper.shapes(
      shapes.map((shape) => ({ ...shape, points: shape.points.map(([p, q]) => [x + p, y + q] as const) })),
      tint,
    );
  paper.rect(x, y, STRIP_END, HIGH, WHITE, SOFT, 0.2);
  paper.rect(x + STRIP, y, END - STRIP, HIGH, WHITE, SOFT, 0.2);
  paper.rect(x + STRIP, y, STRIP_END - STRIP, HIGH, SHARED, SOFT, 0.2);
  for (const [number, at] of [
    ['1', STRIP / 2],
    ['2', (STRIP_END + END) / 2],
  ] as const) {
    put([line(6.4, [at, NUMBER], [at, NUMBER])], [0.15, 0.15, 0.16]);
    paper.text(x + at, y + NUMBER - 1.4, number, 11, { bold: true, tint: WHITE, middle: true });
  }
  const station = HIGH - 6.5;
  for (const level of [station, 6.5]) {
    put([...cross(STRIP + 2.3, level), ...cross(STRIP_END - 2.3, level)], BLACK);
    for (const { points } of vernierScale('fixed'))
      put([line(0.18, ...points.map(([p, q]) => [middle + p * 0.75, level + q * 0.75] as const))], BLACK);
  }
  const ticks = [line(0.35, [middle, HIGH], [middle, HIGH - 3]), line(0.35, [middle, 0], [middle, 3])];
  const dashes = [9.2, 12.6].map((from) => line(0.35, [middle, from], [middle, from + 2.2]));
  put([...ticks, ...dashes], ACCENT);
  for (const [from, level, words] of [
    [middle + 1, HIGH - 1.6, 'cut tick'],
    [STRIP_END - 0.4, station, 'cross-hairs and scale'],
    [middle + 1, HIGH / 2 + 2, 'broken line, shaped cut'],
  ] as const) {
    put([line(0.15, [from, level], [WORDS - 1, level])], SOFT);
    paper.text(x + WORDS, y + level - 1, words, 8);
  }
}
