import { badInput, type Said } from './failure.ts';

export const traceTrouble = {
  holesNotFourOrEight: (clicks: Said) =>
    badInput(`Four or eight truck holes were expected and ${clicks} came.`, 'Click four or all eight.'),
  holeClickedTwice: () =>
    badInput(
      'Two of the clicks lie on one hole, or one lies beside its hole.',
      'Click each hole once, in its middle.',
    ),
  holesLieOtherwise: (way: Said) =>
    badInput(
      `The holes do not lie ${way} the picture.`,
      'Say which way the nose points, or click the holes again.',
    ),
  holesWithoutPairs: () =>
    badInput('The clicked holes do not make pairs across the deck.', 'Click each hole once, in its middle.'),
  holesMissing: (expected: Said, clicks: Said, count: Said) =>
    badInput(
      `${expected} truck holes were expected and ${clicks} came.`,
      `Click the ${count} truck holes again, tail to nose, the lower of each pair first.`,
    ),
  wheelbaseUnknown: () =>
    badInput(
      'The holes of one truck do not tell the wheelbase.',
      'Measure between the inner holes and give it, or click all eight holes.',
    ),
  holesInLine: (count: Said) =>
    badInput(
      'The clicked holes lie in one line or on one spot.',
      `Click the ${count} truck holes again, tail to nose, the lower of each pair first.`,
    ),
  pictureSize: (width: Said, height: Said) =>
    badInput(
      `The picture has ${width} × ${height} points.`,
      'Give a picture of the whole deck, about 2000 to 6000 points long.',
    ),
  noDeck: () =>
    badInput(
      'No deck stands out from its ground in this picture.',
      'Lay it on paper much lighter or darker than it, lit evenly, or move the threshold.',
    ),
  outlineLeavesPicture: () =>
    badInput(
      'The outline runs out of the picture.',
      'Leave some ground all round the deck, and nothing else as dark or as light as it at the picture’s edge.',
    ),
  cameraTooLow: () =>
    badInput(
      'The camera can not have seen a whole deck from there.',
      'Give its height over the wood in mm; two metres or more is best.',
    ),
  horizon: () =>
    badInput(
      'The outline reaches the picture’s horizon.',
      'Click the holes again, or take the picture from straight above.',
    ),
  unlikelyDeck: (width: Said, nose: Said) =>
    badInput(
      `The outline would be ${width} mm wide, with a nose of ${nose} mm, which no deck has.`,
      'Check which holes were clicked, and the wheelbase.',
    ),
  holesToClick: (missing: number) =>
    badInput(
      missing === 1
        ? 'One truck hole is still to be clicked.'
        : `${missing} truck holes are still to be clicked.`,
      'Click each in its middle, in any order.',
    ),
  noPicture: () => badInput('There is no picture to trace.', 'Choose one first.'),
};
