import type { FilmPoint } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';
import { anyInk } from './inkSearch.ts';
import { MARK_LINE } from './markGroup.ts';
import { line, type Shape } from './shape.ts';

/** mm an arm reaches from the hole's centre, the clear wood it keeps from ink, and the shortest piece worth drawing. */
export const HOLE_ARM = 6;
const CLEAR = 0.6;
const SHORTEST = 1;
const STEP = 0.25;

/**
 * Cross-hair at a truck hole, drawn only where no film of the face prints, so that it is the same on every film. Arms are
 * broken where there is ink; what is left still points at the centre. Empty where all is inked.
 */
export function holeShapes(hole: FilmPoint, films: readonly FilmArt[]): Shape[] {
  const shapes: Shape[] = [];
  for (const [dx, dy] of [
    [1, 0],
    [0, 1],
  ] as const) {
    let from: number | null = null;
    const end = (to: number) => {
      if (from !== null && to - from >= SHORTEST) {
        shapes.push(
          line(MARK_LINE, [hole.u + dx * from, hole.v + dy * from], [hole.u + dx * to, hole.v + dy * to]),
        );
      }
      from = null;
    };
    for (let i = -HOLE_ARM / STEP; i < HOLE_ARM / STEP; i++) {
      const at = i * STEP;
      const reach = CLEAR + MARK_LINE / 2;
      const inked = anyInk(films, {
        x: hole.u + dx * at - reach,
        y: hole.v + dy * at - reach,
        width: dx * STEP + 2 * reach,
        height: dy * STEP + 2 * reach,
      });
      if (inked) end(at);
      else if (from === null) from = at;
    }
    end(HOLE_ARM);
  }
  return shapes;
}
