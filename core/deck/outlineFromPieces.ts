import { ramerDouglasPeuckerD } from 'clipper2-ts';
import { outlineTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome, type Ring } from '../units/index.ts';
import type { Deck, Face, Outline } from './deck.ts';
import { ringArea } from './outline.ts';
import {
  areaOf,
  joinPieces,
  MOST_PIECES,
  type Pair,
  type Piece,
  spanOf,
  withoutRepeats,
} from './outlinePieces.ts';
import { selfCrossing } from './ringTests.ts';

export interface ImportOptions {
  /** Where the outline is from, kept in the job: a file's name. */
  readonly source: string;
  /** mm of one unit of the drawing; absent: as the file states. */
  readonly mmPerUnit?: number;
  /** Where the nose points in the drawing; absent: right in a wide drawing, up in a tall one. */
  readonly noseTo?: 'right' | 'left' | 'up' | 'down';
  /** Which face the drawing shows; absent: the bottom. */
  readonly seenFrom?: Face;
}

/** Lengths and widths of decks that can be meant, mm: anything else is a drawing in other units. */
const LENGTHS: readonly [Mm, Mm] = [300, 1800];
const WIDTHS: readonly [Mm, Mm] = [60, 500];
/** The document's own limit on points. */
const MOST_POINTS = 20_000;
/** mm by which a crowded outline may be thinned. */
const THINNING = 0.01;

/** Turns by which the drawing's nose comes to point right. */
const TURNS: Readonly<Record<'right' | 'left' | 'up' | 'down', (p: Pair) => Pair>> = {
  right: ([x, y]) => [x, y],
  left: ([x, y]) => [-x, -y],
  up: ([x, y]) => [y, -x],
  down: ([x, y]) => [-y, x],
};

const boxOf = (points: readonly Pair[]) => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { x0, y0, x1, y1 };
};

/**
 * The outline among pieces of line (mm, +y up): joined over tiny gaps, the largest closed loop, its nose right, its box
 * centred on the origin, counter-clockwise. Refused: none closed, one that crosses itself, a size no deck has.
 */
export function outlineFromPieces(pieces: readonly Piece[], options: ImportOptions): Outcome<Outline> {
  if (pieces.length > MOST_PIECES) return outlineTrouble.tooManyPieces(pieces.length, MOST_PIECES);
  const joined = joinPieces(pieces);
  const closed = joined.filter((p) => p.closed).sort((a, b) => areaOf(b) - areaOf(a));
  const open = joined.filter((p) => !p.closed).sort((a, b) => spanOf(b) - spanOf(a));
  const best = closed[0];
  const [longest] = open;
  if (!best || (longest && spanOf(longest) > spanOf(best))) {
    if (!longest) return outlineTrouble.noClosedLine();
    const a = longest.points[0] as Pair;
    const b = longest.points[longest.points.length - 1] as Pair;
    const gap = Math.hypot(a[0] - b[0], a[1] - b[1]);
    return outlineTrouble.open(gap.toFixed(2));
  }
  let points = withoutRepeats(best.points);
  if (points.length > MOST_POINTS)
    points = ramerDouglasPeuckerD(
      points.map(([x, y]) => ({ x, y })),
      THINNING,
    ).map(({ x, y }): Pair => [x, y]);
  if (points.length < 3 || points.length > MOST_POINTS)
    return outlineTrouble.wrongPoints(points.length, MOST_POINTS);
  const drawn = boxOf(points);
  const wide = drawn.x1 - drawn.x0 >= drawn.y1 - drawn.y0;
  const turned = points.map(TURNS[options.noseTo ?? (wide ? 'right' : 'up')]);
  const seen = options.seenFrom === 'top' ? turned.map(([x, y]): Pair => [x, -y]) : turned;
  const box = boxOf(seen);
  const length = box.x1 - box.x0;
  const width = box.y1 - box.y0;
  if (!(length >= LENGTHS[0] && length <= LENGTHS[1] && width >= WIDTHS[0] && width <= WIDTHS[1]))
    return outlineTrouble.wrongSize(length.toFixed(1), width.toFixed(1));
  const [cx, cy] = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2];
  const placed: [number, number][] = seen.map(([x, y]) => [x - cx, y - cy]);
  const cross = selfCrossing(placed);
  if (cross) return outlineTrouble.crosses((cross[0] + length / 2).toFixed(1));
  if (ringArea(placed as Ring) < 0) placed.reverse();
  return done({ kind: 'path', points: placed, source: options.source.slice(0, 400) });
}

/**
 * The deck with this outline. A path is moved along so that the nose stays as much longer than the tail as it was, and
 * the deck takes its width and the lengths of nose and tail from it.
 */
export function deckWithOutline(deck: Deck, outline: Outline): Deck {
  if (outline.kind !== 'path') return { ...deck, outline };
  const box = boxOf(outline.points);
  const by = (deck.noseLength - deck.tailLength) / 2 - (box.x0 + box.x1) / 2;
  const outer = deck.wheelbase / 2 + deck.holes.along;
  return {
    ...deck,
    outline: { ...outline, points: outline.points.map(([x, y]) => [x + by, y]) },
    width: box.y1 - box.y0,
    noseLength: box.x1 + by - outer,
    tailLength: -(box.x0 + by) - outer,
  };
}
