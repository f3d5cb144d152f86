import type { Mm, Ring } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';
import { outlineRing } from './outline.ts';
import { makeSurface } from './surface.ts';

type Pair = readonly [number, number];

const SURFACE_TOLERANCE = 0.01;
/** A plan edge longer than this, mm, may hide a bend between its ends. */
const LONGEST_EDGE = 20;
const DEEPEST = 12;

/** The outline along the wood: s, t in mm, counter-clockwise, at most about `toleranceMm` from the true curve. */
export function outlineOnSurface(deck: Deck, face: Face, toleranceMm: Mm = SURFACE_TOLERANCE): Ring {
  const surface = makeSurface(deck, face);
  const lift = (x: number, y: number): Pair => {
    const { s, t } = surface.toSurface({ x, y });
    return [s, t];
  };
  const out: Pair[] = [];
  const follow = (p: Pair, a: Pair, q: Pair, b: Pair, depth: number): void => {
    const x = (p[0] + q[0]) / 2;
    const y = (p[1] + q[1]) / 2;
    const m = lift(x, y);
    const off = Math.hypot(m[0] - (a[0] + b[0]) / 2, m[1] - (a[1] + b[1]) / 2);
    const long = Math.abs(q[0] - p[0]) + Math.abs(q[1] - p[1]) > LONGEST_EDGE;
    if (depth < DEEPEST && (long || off > toleranceMm)) {
      follow(p, a, [x, y], m, depth + 1);
      follow([x, y], m, q, b, depth + 1);
    } else out.push(a);
  };
  const ring = outlineRing(deck, face, toleranceMm);
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i] as Pair;
    const q = ring[(i + 1) % ring.length] as Pair;
    follow(p, lift(p[0], p[1]), q, lift(q[0], q[1]), 0);
  }
  return out;
}
