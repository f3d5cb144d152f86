import { badInput, done, type Outcome, type Ring } from '../units/index.ts';
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
  if (depth > 0 && flat >= deck.width)
    return badInput(
      `The flat strip is ${show(flat)} wide but the deck only ${show(deck.width)}.`,
      'Make the flat strip narrower, or set the concave depth to 0.',
    );
  const run = (deck.width - flat) / 2;
  if (depth >= run)
    return badInput(
      `The concave is ${show(depth)} deep but the wood beside the middle only ${show(run)} wide.`,
      'Measure the depth again: a straightedge across the rails, the gap at the centre (6 to 14 mm is usual).',
    );
  return null;
}

function checkOutline(deck: Deck, ring: Ring) {
  const { outline } = deck;
  if (outline.kind === 'parametric') {
    const outer = deck.wheelbase / 2 + deck.holes.along;
    for (const end of ['nose', 'tail'] as const) {
      const tip = outer + deck[`${end}Length`];
      if (!(outline[end].length > 0))
        return badInput(`The outline's ${end} has no length.`, `Give the rounded ${end} a length over 0 mm.`);
      if (outline[end].length > tip)
        return badInput(
          `The outline's rounded ${end} is ${show(outline[end].length)} long but mid-wheelbase is only ${show(tip)} from the tip.`,
          `Make the rounded ${end} shorter or the ${end} longer.`,
        );
      if (outline[end].width > deck.width + 1e-6)
        return badInput(
          `The ${end} is ${show(outline[end].width)} wide but the deck only ${show(deck.width)}.`,
          'The deck’s width is its widest: make it larger, or that end narrower.',
        );
    }
    if (outline.waist >= deck.width / 2)
      return badInput(
        `The waist draws each rail in by ${show(outline.waist)}, which leaves no deck.`,
        'Make the waist smaller.',
      );
  }
  const cross = selfCrossing(ring);
  if (cross)
    return badInput(
      `The outline crosses itself near ${show(cross[0])}, ${show(cross[1])}.`,
      'Draw it as one loop that never crosses itself.',
    );
  const flat = flatHalf(deck);
  const most = ring.reduce((widest, [, y]) => Math.max(widest, Math.abs(y)), 0);
  const k = faceCurvature(deck, 'top');
  if ((most - flat) * k >= 1)
    return badInput(
      `The outline reaches ${show(most)} from the centreline, where the concave would stand upright.`,
      'Centre the outline across, or make the concave shallower.',
    );
  return null;
}

function checkHoles(deck: Deck, ring: Ring) {
  const radius = deck.holes.diameter / 2;
  if (deck.holes.along <= deck.holes.diameter || deck.holes.across <= deck.holes.diameter)
    return badInput(
      'The truck holes run into each other.',
      'Give the hole pattern centre to centre (53.975 × 41.275 mm is usual).',
    );
  for (const { x, y } of truckHoles(deck, 'bottom'))
    if (!insideRing(ring, x, y) || distanceToRing(ring, x, y) < radius)
      return badInput(
        `The truck hole at ${show(x)}, ${show(y)} is not inside the outline.`,
        'Check the wheelbase (between the inner holes), the hole pattern, and the lengths of nose and tail.',
      );
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
    if (top.start >= tip)
      return badInput(
        `The ${end}'s bend begins ${show(kick.start)} past the outer holes, beyond its tip.`,
        `Measure again from the outer truck holes to where the ${end} begins to rise.`,
      );
    if (top.start + top.radius * top.sin > tip)
      return badInput(
        `The ${end}'s bend takes ${show(top.radius * top.sin)} and ends beyond its tip, ${show(tip - top.start)} from where it begins.`,
        `Make the bend's radius smaller, its angle less, or the ${end} longer.`,
      );
    for (const face of FACES) {
      const k = faceCurvature(deck, face);
      const flat = flatHalf(deck);
      const sine = Math.min(1, Math.max(0, half - flat) * k);
      const rise = k > 0 ? (1 - Math.sqrt(1 - sine * sine)) / k : 0;
      const radius = kickCurve(deck, face, end).radius;
      if (radius <= rise || radius === 0)
        return badInput(
          `The ${end}'s bend has a radius of ${show(kick.radius)} but the rails rise ${show(rise)}: the wood would fold.`,
          'Give the bend a larger radius (100 mm is usual), or the concave less depth.',
        );
    }
  }
  return null;
}
