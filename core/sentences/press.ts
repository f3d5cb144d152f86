import { badInput, type Said } from './failure.ts';

export const pressTrouble = {
  outOfRange: (name: Said, kind: Said, least: Said, most: Said, unit: Said, value: Said) =>
    badInput(
      `The ${name} must be ${kind} from ${least} to ${most}${unit}, but is ${value}.`,
      `Give the ${name} in that range.`,
    ),
  bladeWiderThanDeck: (blade: Said, width: Said) =>
    badInput(
      `The blade is ${blade} mm but the deck ${width} mm wide.`,
      'Give a blade over 0 mm and no wider than the deck.',
    ),
  frameNarrowerThanDeck: (frame: Said, width: Said) =>
    badInput(
      `The frame is ${frame} mm inside but the deck ${width} mm wide.`,
      'Give the inner width of a frame that holds the deck between its sides.',
    ),
  offContactNoLength: () => badInput('The off-contact is not a length of 0 mm or more.', 'Give it in mm.'),
  frameTooSmall: (length: Said, width: Said, needLength: Said, needWidth: Said) =>
    badInput(
      `The frame is ${length} × ${width} mm inside, but the deck needs ${needLength} × ${needWidth} mm about mid-wheelbase.`,
      'Give the inner size of a frame that holds the whole deck.',
    ),
  barOutOfRange: () =>
    badInput('The frame’s own bar is not a width from 0 to 300 mm.', 'Measure it and give it in mm.'),
  stretchNoShare: () =>
    badInput('The most the mesh may stretch is not a share between 0 and 1.', 'Give 0.03 for 3 %.'),
  frameTooShort: (length: Said, half: Said) =>
    badInput(
      `The frame is ${length} mm inside but the deck reaches ${half} mm from mid-wheelbase.`,
      'Give the inner length of a frame that holds the whole deck.',
    ),
  stretchedAtMiddle: (stretch: Said, most: Said) =>
    badInput(
      `The mesh would stretch ${stretch} % at mid-wheelbase already, over the ${most} % allowed.`,
      'Use a longer frame or less off-contact.',
    ),
  clampsAtOnePlace: () =>
    badInput('The two clamps stand at one place.', 'Give the places of two clamps at least 20 mm apart.'),
  tooFewScales: (scales: Said, marks: Said) =>
    badInput(
      `${scales} scales at ${marks} marks do not settle a shift and a turn.`,
      'Read both scales at two marks far apart, or three scales or more in all.',
    ),
  turnNotSettled: () =>
    badInput(
      'These scales do not settle a turn.',
      'Read both scales at two marks far apart, or three scales or more in all.',
    ),
  tooFewMarks: (marks: Said) =>
    badInput(`A move needs two or more marks, but ${marks} came.`, 'Read two marks or more, far apart.'),
  marksAtOnePlace: () =>
    badInput(
      'All marks lie at one place, so a turn can not be told.',
      'Read marks far apart from each other.',
    ),
  deckMeasureNoLength: (name: Said) =>
    badInput(`The deck's ${name} is not a length of 0 mm or more.`, `Give the ${name} in mm.`),
  deckWithoutWidth: () => badInput('The deck has no width.', 'Give its width, rail to rail, in mm.'),
  tooFewPlies: (plies: Said) =>
    badInput(
      `A handle of ${plies} plies can not be laminated to a curve.`,
      'Give a whole number of plies, 2 or more.',
    ),
  riseNoLength: () =>
    badInput('The rise of the squeegee at hand is not a length.', 'Give it in mm, 0 for a straight edge.'),
  noSuchStrip: (strip: Said, strips: Said) =>
    badInput(`Strip ${strip} is not on a test of ${strips} strips.`, `Give 1 to ${strips}.`),
};
