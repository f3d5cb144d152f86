import { badInput, type Said } from './failure.ts';

export const deckTrouble = {
  flatWiderThanDeck: (flat: Said, width: Said) =>
    badInput(
      `The flat strip is ${flat} wide but the deck only ${width}.`,
      'Make the flat strip narrower, or set the concave depth to 0.',
    ),
  concaveTooDeep: (depth: Said, run: Said) =>
    badInput(
      `The concave is ${depth} deep but the wood beside the middle only ${run} wide.`,
      'Measure the depth again: a straightedge across the rails, the gap at the centre (6 to 14 mm is usual).',
    ),
  endWithoutLength: (end: Said) =>
    badInput(`The outline's ${end} has no length.`, `Give the rounded ${end} a length over 0 mm.`),
  endTooLong: (end: Said, length: Said, tip: Said) =>
    badInput(
      `The outline's rounded ${end} is ${length} long but mid-wheelbase is only ${tip} from the tip.`,
      `Make the rounded ${end} shorter or the ${end} longer.`,
    ),
  endTooWide: (end: Said, wide: Said, width: Said) =>
    badInput(
      `The ${end} is ${wide} wide but the deck only ${width}.`,
      'The deck’s width is its widest: make it larger, or that end narrower.',
    ),
  waistTooDeep: (waist: Said) =>
    badInput(`The waist draws each rail in by ${waist}, which leaves no deck.`, 'Make the waist smaller.'),
  outlineCrossesNear: (x: Said, y: Said) =>
    badInput(`The outline crosses itself near ${x}, ${y}.`, 'Draw it as one loop that never crosses itself.'),
  outlineTooFarOut: (most: Said) =>
    badInput(
      `The outline reaches ${most} from the centreline, where the concave would stand upright.`,
      'Centre the outline across, or make the concave shallower.',
    ),
  holesOverlap: () =>
    badInput(
      'The truck holes run into each other.',
      'Give the hole pattern centre to centre (53.975 × 41.275 mm is usual).',
    ),
  holeOutside: (x: Said, y: Said) =>
    badInput(
      `The truck hole at ${x}, ${y} is not inside the outline.`,
      'Check the wheelbase (between the inner holes), the hole pattern, and the lengths of nose and tail.',
    ),
  bendBeginsBeyondTip: (end: Said, start: Said) =>
    badInput(
      `The ${end}'s bend begins ${start} past the outer holes, beyond its tip.`,
      `Measure again from the outer truck holes to where the ${end} begins to rise.`,
    ),
  bendEndsBeyondTip: (end: Said, length: Said, room: Said) =>
    badInput(
      `The ${end}'s bend takes ${length} and ends beyond its tip, ${room} from where it begins.`,
      `Make the bend's radius smaller, its angle less, or the ${end} longer.`,
    ),
  bendFolds: (end: Said, radius: Said, rise: Said) =>
    badInput(
      `The ${end}'s bend has a radius of ${radius} but the rails rise ${rise}: the wood would fold.`,
      'Give the bend a larger radius (100 mm is usual), or the concave less depth.',
    ),
};
