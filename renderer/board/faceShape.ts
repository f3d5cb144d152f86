import {
  type Deck,
  type Face,
  holesOnSurface,
  makeSurface,
  outlineOnSurface,
  printableRings,
} from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import type { Box, Ring } from '../../core/units/index.ts';

/** A face's fixed lines on the surface, mm. */
export interface FaceShape {
  readonly outline: Ring;
  readonly holes: readonly { readonly s: number; readonly t: number }[];
  readonly holeRadius: number;
  readonly printable: readonly Ring[];
  readonly box: Box;
  /** Surface s where each kick's bend begins: tail, nose. */
  readonly kicks: readonly [number, number];
  /** Surface s of the inner truck holes: tail, nose; and of the outer ones. */
  readonly inner: readonly [number, number];
  readonly outer: readonly [number, number];
}

export const boxOf = (ring: Ring): Box => {
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
};

function shape(deck: Deck, face: Face, railMargin: number, clearHoles: number): FaceShape {
  const outline = outlineOnSurface(deck, face);
  const surface = makeSurface(deck, face);
  const at = (x: number) => surface.toSurface({ x, y: 0 }).s as number;
  const inner = deck.wheelbase / 2;
  const outer = inner + deck.holes.along;
  return {
    outline,
    holes: holesOnSurface(deck, face),
    holeRadius: deck.holes.diameter / 2,
    printable: printableRings(deck, face, { railMargin, clearHoles, reach: null }),
    box: boxOf(outline),
    kicks: [at(-outer - deck.tail.start), at(outer + deck.nose.start)],
    inner: [at(-inner), at(inner)],
    outer: [at(-outer), at(outer)],
  };
}

const kept = new WeakMap<Deck, Map<string, FaceShape>>();

/** The lines of a face; worked out once for each deck. */
export function faceShape(job: Job, face: Face): FaceShape {
  const { railMargin, clearHoles } = job.faces[face];
  const key = `${face} ${railMargin} ${clearHoles}`;
  const known = kept.get(job.deck) ?? new Map<string, FaceShape>();
  kept.set(job.deck, known);
  const found = known.get(key) ?? shape(job.deck, face, railMargin, clearHoles);
  known.set(key, found);
  return found;
}
