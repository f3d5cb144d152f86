import type { Mm } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';
import { outlineRing } from './outline.ts';
import { makeSurface } from './surface.ts';

/** How a length is measured: straight, as a rule held over the deck or a wall sees it; or along the board, with a tape. */
export type LengthWay = 'straight' | 'along';

/** The tips, plan x, mm: `tail` is negative. */
function tips(deck: Deck): { readonly tail: Mm; readonly nose: Mm } {
  let [tail, nose] = [Infinity, -Infinity];
  for (const [x] of outlineRing(deck, 'bottom', 0.05)) {
    tail = Math.min(tail, x);
    nose = Math.max(nose, x);
  }
  return { tail, nose };
}

/** The deck's whole length, tip to tip, mm: straight in plan, or along a face's centreline. */
export function deckLength(deck: Deck, way: LengthWay, face: Face = 'top'): Mm {
  const { tail, nose } = tips(deck);
  if (way === 'straight') return nose - tail;
  const surface = makeSurface(deck, face);
  return surface.toSurface({ x: nose, y: 0 }).s - surface.toSurface({ x: tail, y: 0 }).s;
}

/** From the outer truck holes to a tip, mm, measured straight or along a face's centreline. */
export function endLength(deck: Deck, end: 'nose' | 'tail', way: LengthWay, face: Face = 'top'): Mm {
  if (way === 'straight') return deck[`${end}Length`];
  const outer = deck.wheelbase / 2 + deck.holes.along;
  const tip = outer + deck[`${end}Length`];
  const side = end === 'nose' ? 1 : -1;
  // No bend begins before the outer holes, so plan and wood agree there.
  return Math.abs(makeSurface(deck, face).toSurface({ x: side * tip, y: 0 }).s) - outer;
}

/** The same length as the document keeps it, straight: from one measured along a face's centreline. */
export function straightEndLength(deck: Deck, end: 'nose' | 'tail', along: Mm, face: Face = 'top'): Mm {
  const outer = deck.wheelbase / 2 + deck.holes.along;
  const side = end === 'nose' ? 1 : -1;
  return Math.abs(makeSurface(deck, face).toPlan({ s: side * (outer + along), t: 0 }).x) - outer;
}
