import {
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathsD,
} from 'clipper2-ts';
import type { Mm, Ring } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';
import { outlineOnSurface } from './outlineOnSurface.ts';
import { holesOnSurface } from './truckHoles.ts';

export interface PrintableOptions {
  /** mm the ink stays inside the outline. */
  readonly railMargin: Mm;
  /** mm radius kept clear round each hole centre; 0: none. */
  readonly clearHoles: Mm;
  /** mm along the wood from mid-wheelbase that the mesh reaches, both positive; null or absent: it reaches all. */
  readonly reach?: { readonly nose: Mm; readonly tail: Mm } | null;
}

/** Decimals of a mm that the clipping keeps: it works on whole numbers inside. */
const DECIMALS = 4;
/** mm an inset's round corner may stray from the true arc. */
const ARC_TOLERANCE = 0.005;
/** Beyond any deck, mm. */
const FAR = 10_000;

/** A polygon of a disc that strays at most `ARC_TOLERANCE` outside it. */
function disc(s: Mm, t: Mm, radius: Mm) {
  const steps = Math.max(24, Math.ceil(Math.PI / Math.acos(Math.max(0, 1 - ARC_TOLERANCE / radius))));
  // Corners a little outside, so that no ink comes nearer than `radius`.
  const corner = radius / Math.cos(Math.PI / steps);
  return Array.from({ length: steps }, (_, i) => {
    const turn = (2 * Math.PI * i) / steps;
    return { x: s + corner * Math.cos(turn), y: t + corner * Math.sin(turn) };
  });
}

/**
 * Where ink may go, on the surface (s, t in mm): outer rings counter-clockwise, holes clockwise, so that even-odd and
 * non-zero filling agree. Empty when the margin leaves nothing.
 */
export function printableRings(deck: Deck, face: Face, options: PrintableOptions): Ring[] {
  let area: PathsD = [outlineOnSurface(deck, face).map(([x, y]) => ({ x, y }))];
  if (options.railMargin > 0)
    area = inflatePathsD(
      area,
      -options.railMargin,
      JoinType.Round,
      EndType.Polygon,
      2,
      DECIMALS,
      ARC_TOLERANCE,
    );
  if (options.reach) {
    const { nose, tail } = options.reach;
    const window = [
      { x: -tail, y: -FAR },
      { x: nose, y: -FAR },
      { x: nose, y: FAR },
      { x: -tail, y: FAR },
    ];
    area = nose > -tail ? intersectD(area, [window], FillRule.NonZero, DECIMALS) : [];
  }
  if (options.clearHoles > 0 && area.length > 0) {
    const discs = holesOnSurface(deck, face).map(({ s, t }) => disc(s, t, options.clearHoles));
    area = differenceD(area, discs, FillRule.NonZero, DECIMALS);
  }
  return area.map((path) => path.map(({ x, y }) => [x, y] as const));
}
