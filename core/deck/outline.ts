import type { Mm, Ring } from '../units/index.ts';
import type { Deck, Face, OutlineEnd } from './deck.ts';

type Pair = readonly [number, number];

/** Default distance, mm, between an outline's curve and its polygon: a tenth of a 600 dpi point is 0.004, a cut 0.1. */
const OUTLINE_TOLERANCE = 0.01;
/** Pieces a curve is always cut into before its flatness is trusted: an S-bend's middle lies on its chord. */
const FIRST_PIECES = 8;
const DEEPEST = 16;

/** Points of `at(0…1)` whose polygon strays at most `tolerance` from the curve; both ends included. */
function flatten(at: (p: number) => Pair, tolerance: Mm): Pair[] {
  const points: Pair[] = [at(0)];
  const split = (p: number, a: Pair, q: number, b: Pair, depth: number): void => {
    const middle = (p + q) / 2;
    const m = at(middle);
    const dx = b[0] - a[0];
    const dy = b[1] - a[1];
    const chord = Math.hypot(dx, dy);
    const off =
      chord > 0
        ? Math.abs((m[0] - a[0]) * dy - (m[1] - a[1]) * dx) / chord
        : Math.hypot(m[0] - a[0], m[1] - a[1]);
    if (depth < DEEPEST && off > tolerance) {
      split(p, a, middle, m, depth + 1);
      split(middle, m, q, b, depth + 1);
    } else points.push(b);
  };
  for (let i = 0; i < FIRST_PIECES; i++) {
    const p = i / FIRST_PIECES;
    const q = (i + 1) / FIRST_PIECES;
    split(p, at(p), q, at(q), 0);
  }
  return points;
}

/** Half the width, mm, where an end's curve begins. */
export const endHalf = (deck: Deck, end: OutlineEnd): Mm => (end.width > 0 ? end.width : deck.width) / 2;

/** From the rail at mid-wheelbase to the tip: the rail eases to the end's width, then a superellipse arc. */
function halfOutline(deck: Deck, end: OutlineEnd, tip: Mm, waist: Mm, tolerance: Mm): Pair[] {
  const from = tip - end.length;
  const middle = deck.width / 2 - waist;
  const half = endHalf(deck, end);
  const power = 2 / end.exponent;
  // Smoothstep: level at both ends, so that the rail leaves mid-wheelbase and meets the arc without a corner.
  const rail = flatten((p) => [from * p, middle + (half - middle) * p * p * (3 - 2 * p)], tolerance);
  const arc = flatten((p) => {
    const turn = (p * Math.PI) / 2;
    return [
      from + end.length * (p === 1 ? 1 : Math.sin(turn)) ** power,
      p === 1 ? 0 : half * Math.cos(turn) ** power,
    ];
  }, tolerance);
  return [...rail, ...arc.slice(1)];
}

function parametricRing(deck: Deck, tolerance: Mm): Pair[] {
  if (deck.outline.kind !== 'parametric') return [];
  const { nose, tail, waist } = deck.outline;
  const outer = deck.wheelbase / 2 + deck.holes.along;
  const toNose = halfOutline(deck, nose, outer + deck.noseLength, waist, tolerance);
  const toTail = halfOutline(deck, tail, outer + deck.tailLength, waist, tolerance).map(
    ([x, y]): Pair => [-x, y],
  );
  // Counter-clockwise from the nose tip: upper rail to the tail tip, then its mirror image back.
  const upper = [...toNose.slice(1).reverse(), ...toTail];
  const lower = upper
    .slice(1, -1)
    .map(([x, y]): Pair => [x, -y])
    .reverse();
  return [...upper, ...lower];
}

/** Signed area, mm²: positive is counter-clockwise. */
export function ringArea(ring: Ring): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x, y] = ring[i] as Pair;
    const [p, q] = ring[(i + 1) % ring.length] as Pair;
    twice += x * q - p * y;
  }
  return twice / 2;
}

/**
 * The deck's outline in plan, mm, as `face` is seen, nose right: counter-clockwise, last point not repeated, at most
 * `toleranceMm` from the curve. Paths in the document are as the bottom is seen; the top is that flipped across.
 */
export function outlineRing(deck: Deck, face: Face, toleranceMm: Mm = OUTLINE_TOLERANCE): Ring {
  const bottom: Ring = deck.outline.kind === 'path' ? deck.outline.points : parametricRing(deck, toleranceMm);
  const ring: Ring = face === 'bottom' ? bottom : bottom.map(([x, y]): Pair => [x, -y]);
  return ringArea(ring) < 0 ? [...ring].reverse() : ring;
}
