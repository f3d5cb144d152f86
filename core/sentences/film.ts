import { badInput, type Said } from './failure.ts';

export const filmTrouble = {
  noRoomForDots: (lpi: Said, dpi: Said, most: Said) =>
    badInput(
      `A screen of ${lpi} lines an inch has no room for dots at ${dpi} dpi.`,
      `Choose at most ${most} lines an inch, or a finer printer.`,
    ),
  misreadLength: (name: Said, asked: Said, got: Said) =>
    badInput(
      `The ${name} should be about ${asked} mm, but ${got} mm was given.`,
      'Measure again from cross to cross with a steel rule, in millimetres.',
    ),
  diagonalsDisagree: (mean: Said, sides: Said) =>
    badInput(
      `The diagonals say ${mean} mm where the sides say ${sides} mm, so one of the four is misread.`,
      'Measure again from cross to cross with a steel rule, in millimetres.',
    ),
  leansTooFar: (degrees: Said) =>
    badInput(
      `The diagonals say that the print leans ${degrees}°, which no printer does.`,
      'Measure both diagonals again, 1 to 3 and 2 to 4; if they are right, the paper went in askew: print again.',
    ),
  noRoomOnSheet: (sheet: Said, width: Said, height: Said, margin: Said, overlap: Said) =>
    badInput(
      `A ${sheet} sheet of ${width} × ${height} mm with margins of ${margin} mm and an overlap of ${overlap} mm leaves too little room for a film and its labels.`,
      'Choose a larger sheet, a smaller margin or a smaller overlap.',
    ),
  faceWithoutInk: (face: Said) =>
    badInput(`The ${face} has no ink to print.`, 'Choose at least one ink for it.'),
  tooManySheets: (face: Said, sheets: Said, sheet: Said) =>
    badInput(
      `The ${face} would need ${sheets} sheets of ${sheet}.`,
      'Choose a larger sheet, and check the size of the deck and the art.',
    ),
  sheetOutOfRange: (longest: Said, width: Said, height: Said, names: Said) =>
    badInput(
      `A sheet must be 20 to ${longest} mm on each side, but ${width} × ${height} mm was asked for.`,
      `Measure the film you print on, or choose one of ${names}.`,
    ),
  sheetTooSmallToMeasure: () =>
    badInput(
      'The sheet is too small to measure a printer by.',
      'Choose a sheet of at least 60 mm on each side.',
    ),
  stepTestTooLarge: (strips: Said, width: Said, height: Said) =>
    badInput(
      `A step test of ${strips} strips does not fit on ${width} × ${height} mm.`,
      'Choose fewer strips or a larger sheet.',
    ),
  tonePatchesTooLarge: (patches: Said, width: Said, height: Said) =>
    badInput(`${patches} tone patches do not fit on ${width} × ${height} mm.`, 'Choose a larger sheet.'),
  noDrawing: () => badInput('There is no drawing to print.', 'Ask for one or more.'),
  sheetTooSmallForTemplates: () =>
    badInput('The sheet is too small for templates.', 'Choose a sheet of at least A5.'),
  dotsWithoutTraps: (face: Said) =>
    badInput(
      `The ${face} is printed in dots, which carry no traps.`,
      'Register errors show in its proof: give it a misregister and look.',
    ),
};
