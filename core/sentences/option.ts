import { badInput, type Said } from './failure.ts';

export const optionTrouble = {
  unknown: (what: Said, word: Said, mend: string) => badInput(`There is no ${what} “${word}”.`, mend),
  notLength: (shown: Said) =>
    badInput(
      `“${shown}” is not a length.`,
      'Write it like 210mm, 21cm, 8.25in or 8 1/4"; a bare number is mm.',
    ),
  notLengthOrSum: (shown: Said, unit: Said) =>
    badInput(
      `“${shown}” is not a length.`,
      `Write it like 210mm, 8.25in or 8 1/4", or as a sum like 210 + 2*3; a bare number is ${unit}.`,
    ),
  noArt: () => badInput('No art was given.', 'Give one or more files after --art, or words after --text.'),
  inksForLayers: () =>
    badInput(
      'Art in layers says by its layers how many inks there are.',
      'Leave out --inks, or name the inks.',
    ),
  calculatorTakesNo: (calculator: Said, option: Said, takes: Said) =>
    badInput(`calc ${calculator} takes no --${option}.`, `It takes ${takes}.`),
  notShare: (name: Said, text: Said) =>
    badInput(
      `--${name} must be a share from 0.0001 to 0.5, but “${text}” was given.`,
      'Give 0.03 or 3% for three hundredths.',
    ),
  frameTwice: () =>
    badInput('--frame and --frame-length both say how long the frame is.', 'Give one of them.'),
  notPoint: (text: Said) =>
    badInput(`“${text}” is not a point.`, 'Give two lengths with a comma between, like 300,50 or 12in,2in.'),
  pointOffDeck: (furthest: Said) =>
    badInput('That point lies on no deck.', `Give lengths of at most ${furthest} mm from mid-wheelbase.`),
  pointUpright: () =>
    badInput(
      'That point lies so far beyond the rail that the wood would stand upright there.',
      'Give a point on the deck, from mid-wheelbase to the nose and up as seen.',
    ),
  heatMapNotPng: (out: Said) =>
    badInput(`The heat map is written as PNG, but “${out}” ends otherwise.`, 'End its name in .png.'),
  noPoint: () =>
    badInput('No point was given.', 'Give one with --point X,Y, or --misfit FILE.png for a heat map.'),
  deckNotJson: (path: Said) =>
    badInput(`“${path}” is not JSON.`, 'Save the deck’s measurements as a JSON object.'),
  deckNotWhole: (path: Said, place: Said) =>
    badInput(`“${path}” is not a whole deck: ${place}.`, 'Mend that measurement.'),
  ownOutline: (name: Said) =>
    badInput(
      `--${name} can not change a deck with an outline of its own.`,
      'Leave it out, or start from a template with --deck.',
    ),
  noFilmFolder: () => badInput('No folder was named for the films.', 'Give one with --out.'),
  notInk: (text: Said) =>
    badInput(
      `“${text}” is not an ink.`,
      "Give a number, '#e8613c=Coral,#1b2440=Night blue', or a palette file (.json or .gpl).",
    ),
  inkTwice: (hex: Said) => badInput(`The ink ${hex} is named twice.`, 'Give each colour once.'),
  emptyShelfChosen: () =>
    badInput(
      'Your ink shelf is empty.',
      'Put inks on it with kickflat shelf --add, or leave --from-shelf out.',
    ),
  inkCount: (most: Said, wanted: Said) =>
    badInput(
      `--inks must be 1 to ${most}, but ${wanted} was given.`,
      'Give the number of screens you will burn.',
    ),
  noColours: () =>
    badInput(
      'The art has no colours to print: it is transparent or all ground.',
      'Give art with something on it.',
    ),
  tooManyInks: (inks: Said, most: Said) =>
    badInput(`${inks} inks are more than the ${most} a face may have.`, 'Leave some out.'),
  notLayer: (text: Said) =>
    badInput(
      `“${text}” does not say which layer prints which ink.`,
      "Give --layers 'Sea=Night blue,Sketch=none'.",
    ),
  noOption: (command: Said, option: Said, mend: string) =>
    badInput(`${command} has no option ${option}.`, mend),
  twice: (name: Said) => badInput(`--${name} is given twice.`, 'Give it once.'),
  takesNoValue: (name: Said, see: string) => badInput(`--${name} takes no value.`, see),
  needsValue: (name: Said, value: Said, see: string) => badInput(`--${name} needs a value (${value}).`, see),
  missingWord: (command: Said, word: Said, see: string) => badInput(`${command} needs ${word}.`, see),
  extraWord: (command: Said, word: Said, see: string) =>
    badInput(`${command} does not know what to do with “${word}”.`, see),
  lengthOutOfRange: (name: Said, least: Said, most: Said, text: Said) =>
    badInput(
      `--${name} must be ${least} to ${most} mm, but ${text} was given.`,
      'Give a length in that range; units may be mm, cm or in.',
    ),
  notNumberInRange: (name: Said, whole: Said, least: Said, most: Said, text: Said) =>
    badInput(
      `--${name} must be a ${whole}number from ${least} to ${most}, but “${text}” was given.`,
      'Give a number in that range.',
    ),
  noPressFolder: () => badInput('No folder was named for the press sheets.', 'Give one with --out.'),
  marginsTooWide: (margin: Said, width: Said, height: Said) =>
    badInput(
      `Margins of ${margin} mm leave nothing of a sheet of ${width} × ${height} mm.`,
      'Give a larger sheet or a smaller --printer-margin.',
    ),
  noColourways: () =>
    badInput('This job has no colourways.', 'Leave --colourway out, or add colourways in the studio.'),
  proofTooLarge: (proofs: Said, dpi: Said, most: Said) =>
    badInput(`${proofs} proofs at ${dpi} dpi make too large a picture.`, `Give --dpi ${most} or less.`),
  noProofFile: () => badInput('No file was named for the proof.', 'Give one with --out FILE.png.'),
  proofNotPng: (out: Said) =>
    badInput(`A proof is written as PNG, but “${out}” ends otherwise.`, 'End its name in .png.'),
  gridAndVeneer: () =>
    badInput(
      '--grid shows every veneer and colourway, but one was named.',
      'Leave --grid out, or --veneer and --colourway.',
    ),
  notNumbers: (text: Said, what: Said) =>
    badInput(`“${text}” is no ${what}.`, 'Give millimetres parted by commas, for example 380,0,0.3,-0.1.'),
  notFourLengths: (text: Said) =>
    badInput(
      `--measured wants four lengths, but “${text}” was given.`,
      'Give what you measured on calibration.pdf, from cross to cross in mm: 1 to 2, 1 to 4, 1 to 3, 2 to 4, for example 170.3,239.6,293.9,293.9.',
    ),
  notShrink: (text: Said) =>
    badInput(
      `--shrink wants a percentage, or two for width and height, but “${text}” was given.`,
      'Give 0.1 or 0.1,0.15, at most 2; 0 for a film whose printer was measured on it.',
    ),
  shrinkMeasured: () =>
    badInput(
      'What is measured on a film already holds its shrink, so --measured and --shrink can not both be given.',
      'Leave out --shrink.',
    ),
  markWithoutPlace: (text: Said) =>
    badInput(`“${text}” does not say where the mark is.`, 'Begin with X,Y in mm.'),
  noMark: () => badInput('No mark was read.', 'Give --mark X,Y,ALONG,ACROSS for two marks or more.'),
  notTwoClamps: () =>
    badInput('Two clamps are reckoned with.', 'Give the places of both, as --clamps X,Y X,Y.'),
  readingLacksNumber: (text: Said) => badInput(`“${text}” lacks a number.`, 'Give both, as in 0.2,-0.1.'),
  noSecondReading: () =>
    badInput(
      'No screen was read twice, so nothing is known of how it strays.',
      'Give two readings or more of a screen, as --reading 0.2,-0.1 0.3,0.',
    ),
  notColour: (text: Said) =>
    badInput(
      `“${text}” says no colour.`,
      "Write it like 'Coral=#8a5fb0', or with a new name: 'Coral=#8a5fb0=Violet'.",
    ),
  noReprintFile: () => badInput('No file was named for the reprint.', 'Give one with --out.'),
  colourwayTwice: () => badInput('--colourway and --new-colourway were both given.', 'Give one of them.'),
  colourwayHalf: () =>
    badInput(
      'A new colourway takes both its name and its inks.',
      'Give --new-colourway NAME and --ink INK=#hex.',
    ),
  frameWithoutBlade: () =>
    badInput('A frame is not reckoned without a blade.', 'Give its length with --blade.'),
  notPaletteOrJob: (path: Said) =>
    badInput(
      `“${path}” is no palette and no job.`,
      'Give a GIMP palette (.gpl), a .json palette or a .kickflat job.',
    ),
  paletteEnding: (out: Said) =>
    badInput(
      `A palette is written as .gpl or .json, but “${out}” ends otherwise.`,
      'End its name in .gpl or .json.',
    ),
  shopNotJson: (path: Said) =>
    badInput(`“${path}” is not JSON.`, 'Give a file as kickflat shop --json prints it.'),
  shopTwice: () => badInput('A job and --read were both given.', 'Give the one whose figures you want kept.'),
  withoutText: (option: Said) =>
    badInput(`--${option} is given without --text.`, 'Give the words after --text.'),
  notTextColour: (text: Said) =>
    badInput(`--text-colour: “${text}” is not a colour.`, "Write it like '#1b2440'."),
  nothingLearnt: () =>
    badInput(
      'The job’s log holds no screen that was read twice, so it teaches no tolerance.',
      'Write down at the Press station how far pulls lay off, or give --tolerance a length.',
    ),
  trapWidth: (width: Said) => badInput(`A trap of ${width} is not tried.`, 'Give widths from 0 to 10 mm.'),
  noTonePatch: (part: Said) =>
    badInput(
      `“${part}” is no tone patch.`,
      'Give the film’s percent and the printed percent of each: 25=38,50=66,75=88.',
    ),
  toneOverFull: (part: Said) =>
    badInput(`A tone over 100 % is not printed: ${part}.`, 'Give percents from 0 to 100, such as 50=66.'),
  tonePatchTwice: (film: Said) =>
    badInput(`The patch of ${film} % is given twice.`, 'Give the mean of its readings once.'),
  tooManyTonePatches: (patches: Said, most: Said) =>
    badInput(`${patches} tone patches are too many.`, `Give at most ${most}.`),
  toneTurnsBack: (film: Said) =>
    badInput(
      `The patch of ${film} % reads lighter than the thinner one before it.`,
      'Measure the two again: more dots never print lighter.',
    ),
  jobWithoutDots: () =>
    badInput(
      'This job screens no dots.',
      'Tones are for the method halftone: kickflat new … --method halftone.',
    ),
  faceWithoutDots: (face: Said) =>
    badInput(`The ${face} screens no dots.`, 'Tones are for the method halftone; name the other face.'),
  printedAndNone: () => badInput('--printed and --none do not go together.', 'Give one of them.'),
  tooManyWidths: (widths: Said, most: Said) =>
    badInput(`${widths} trap widths are too many.`, `Give at most ${most}.`),
};
