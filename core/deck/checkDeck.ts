import { deckTrouble } from '../sentences/index.ts';
import { done, type Outcome, type Ring } from '../units/index.ts';
import { faceCurvature, flatHalf } from './concave.ts';
import { type Deck, FACES } from './deck.ts';
import { kickCurve } from './kickCurve.ts';
import { outlineRing } from './outline.ts';
import { distanceToRing, insideRing, selfCrossing } from './ringTests.ts';
import { truckHoles } from './truckHoles.ts';

const show = (mm: number) => `${Math.round(mm * 10) / 10} mm`;

/**
 * The deck if it can be made of wood, else the first thing that can not be, in one sentence and a mend. A deck whose
 * outline is a path takes its width and the lengths of its nose and tail from that path.
 */
export function checkDeck(given: Deck): Outcome<Deck> {
  const ring = outlineRing(given, 'bottom', 0.1);
  const deck = given.outline.kind === 'path' ? measured(given, ring) : given;
  return (
    checkConcave(deck) ??
    checkOutline(deck, ring) ??
    checkHoles(deck, ring) ??
    checkKicks(deck, ring) ??
    done(deck)
  );
}

function measured(deck: Deck, ring: Ring): Deck {
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const outer = deck.wheelbase / 2 + deck.holes.along;
  return {
    ...deck,
    width: Math.max(...ys) - Math.min(...ys),
    noseLength: Math.max(...xs) - outer,
    tailLength: -Math.min(...xs) - outer,
  };
}

function checkConcave(deck: Deck) {
  const { depth, profile, flatWidth } = deck.concave;
  const flat = profile === 'flat-centre' ? flatWidth : 0;
  if (depth > 0 && flat >= deck.width) return deckTrouble.flatWiderThanDeck(show(flat), show(deck.width));
  const run = (deck.width - flat) / 2;
  if (depth >= run) return deckTrouble.concaveTooDeep(show(depth), show(run));
  return null;
}

function checkOutline(deck: Deck, ring: Ring) {
  const { outline } = deck;
  if (outline.kind === 'parametric') {
    const outer = deck.wheelbase / 2 + deck.holes.along;
    for (const end of ['nose', 'tail'] as const) {
      const tip = outer + deck[`${end}Length`];
      if (!(outline[end].length > 0)) return deckTrouble.endWithoutLength(end);
      if (outline[end].length > tip) return deckTrouble.endTooLong(end, show(outline[end].length), show(tip));
      if (outline[end].width > deck.width + 1e-6)
        return deckTrouble.endTooWide(end, show(outline[end].width), show(deck.width));
    }
    if (outline.waist >= deck.width / 2) return deckTrouble.waistTooDeep(show(outline.waist));
  }
  const cross = selfCrossing(ring);
  if (cross) return deckTrouble.outlineCrossesNear(show(cross[0]), show(cross[1]));
  const flat = flatHalf(deck);
  const most = ring.reduce((widest, [, y]) => Math.max(widest, Math.abs(y)), 0);
  const k = faceCurvature(deck, 'top');
  if ((most - flat) * k >= 1) return deckTrouble.outlineTooFarOut(show(most));
  return null;
}

function checkHoles(deck: Deck, ring: Ring) {
  const radius = deck.holes.diameter / 2;
  if (deck.holes.along <= deck.holes.diameter || deck.holes.across <= deck.holes.diameter)
    return deckTrouble.holesOverlap();
  for (const { x, y } of truckHoles(deck, 'bottom'))
    if (!insideRing(ring, x, y) || distanceToRing(ring, x, y) < radius)
      return deckTrouble.holeOutside(show(x), show(y));
  return null;
}

function checkKicks(deck: Deck, ring: Ring) {
  const half = ring.reduce((widest, [, y]) => Math.max(widest, Math.abs(y)), 0);
  for (const end of ['nose', 'tail'] as const) {
    const kick = deck[end];
    if (kick.angleDeg === 0) continue;
    const top = kickCurve(deck, 'top', end);
    const over = end === 'nose' ? 1 : -1;
    const tip = ring.reduce((far, [x]) => Math.max(far, x * over), -Infinity);
    if (top.start >= tip) return deckTrouble.bendBeginsBeyondTip(end, show(kick.start));
    if (top.start + top.radius * top.sin > tip)
      return deckTrouble.bendEndsBeyondTip(end, show(top.radius * top.sin), show(tip - top.start));
    for (const face of FACES) {
      const k = faceCurvature(deck, face);
      const flat = flatHalf(deck);
      const sine = Math.min(1, Math.max(0, half - flat) * k);
      const rise = k > 0 ? (1 - Math.sqrt(1 - sine * sine)) / k : 0;
      const radius = kickCurve(deck, face, end).radius;
      if (radius <= rise || radius === 0) return deckTrouble.bendFolds(end, show(kick.radius), show(rise));
    }
  }
  return null;
}
