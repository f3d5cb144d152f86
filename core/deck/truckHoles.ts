import type { PlanPoint, SurfacePoint } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';
import { makeSurface } from './surface.ts';

/** The eight hole centres in plan, mm, tail to nose, the lower of each pair first. The pattern is alike on both faces. */
export function truckHoles(deck: Deck, _face: Face): PlanPoint[] {
  const inner = deck.wheelbase / 2;
  const outer = inner + deck.holes.along;
  const y = deck.holes.across / 2;
  return [-outer, -inner, inner, outer].flatMap((x) => [
    { x, y: -y },
    { x, y },
  ]);
}

/** The same centres along the wood. */
export function holesOnSurface(deck: Deck, face: Face): SurfacePoint[] {
  const surface = makeSurface(deck, face);
  return truckHoles(deck, face).map((hole) => surface.toSurface(hole));
}
