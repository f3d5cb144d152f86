import { bar, lettering, line, place, ringLine, type Shape } from '../film/index.ts';
import type { Drawing, DrawnItem, Layer } from '../press/index.ts';

const WIDTHS: Readonly<Record<Layer, number>> = { cut: 0.35, drill: 0.2, mark: 0.25, frame: 0.18, text: 0.2 };
const [DASH, GAP] = [4, 2];

type Pair = readonly [number, number];

/** A line broken into dashes that run on round its corners. mm. */
function dashes(points: readonly Pair[], width: number): Shape[] {
  const out: Shape[] = [];
  let left = DASH;
  let drawn = true;
  let run: Pair[] = points[0] ? [points[0]] : [];
  for (let i = 1; i < points.length; i++) {
    let [from, to] = [points[i - 1] as Pair, points[i] as Pair];
    for (;;) {
      const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
      if (long <= left) {
        left -= long;
        if (drawn) run.push(to);
        break;
      }
      const at: Pair = [
        from[0] + ((to[0] - from[0]) * left) / long,
        from[1] + ((to[1] - from[1]) * left) / long,
      ];
      if (drawn) out.push(line(width, ...run, at));
      drawn = !drawn;
      run = [at];
      left = drawn ? DASH : GAP;
      from = at;
    }
  }
  if (drawn && run.length > 1) out.push(line(width, ...run));
  return out;
}

function shapesOf(item: DrawnItem): Shape[] {
  const width = WIDTHS[item.layer];
  if (item.kind === 'circle') return [ringLine(item.x, item.y, item.radius, width)];
  if (item.kind === 'text') {
    const words = lettering(item.text, item.height, Math.max(0.18, item.height * 0.1));
    const x = item.middle ? item.x - words.width / 2 : item.x;
    return place(words.shapes, [1, 0, 0, 1, x, item.y]);
  }
  const points = item.closed && item.points[0] ? [...item.points, item.points[0]] : item.points;
  return item.dashed ? dashes(points, width) : [line(width, ...points)];
}

/** A workshop drawing as strokes, drawing mm. */
export const drawingShapes = ({ items }: Drawing): Shape[] => items.flatMap(shapesOf);

/** A ruler along +x from 0, whole millimetres, ticks to +y. */
export function rulerStrip(length: number): Shape[] {
  const shapes: Shape[] = [bar(0, -0.06, length, 0.12)];
  for (let x = 0; x <= length; x++)
    shapes.push(bar(x - 0.05, 0, 0.1, x % 50 === 0 ? 4 : x % 10 === 0 ? 3 : x % 5 === 0 ? 2.2 : 1.4));
  return shapes;
}
