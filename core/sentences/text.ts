import { badInput, type Said } from './failure.ts';

export const textTrouble = {
  fontTooLarge: (name: Said, megabytes: Said, most: Said) =>
    badInput(`“${name}” has ${megabytes} MB; a font may have ${most}.`, 'Pick a font with fewer letters.'),
  fontUnread: (name: Said) =>
    badInput(
      `“${name}” can not be read as a font.`,
      'Pick a .ttf, .otf, .woff or .woff2 file that other programs can open.',
    ),
  fontDamaged: (name: Said) =>
    badInput(`“${name}” is damaged: its letters can not be read.`, 'Choose another font file.'),
  letterMissing: (letter: Said) =>
    badInput(
      `This font has no “${letter}”.`,
      'Choose another font for these words, or leave the letter out.',
    ),
  noWords: () => badInput('There are no words to set.', 'Type some.'),
  tooLong: (letters: Said, lines: Said, mostLetters: Said, mostLines: Said) =>
    badInput(
      `These words are too long: ${letters} letters in ${lines} lines.`,
      `One piece may have ${mostLetters} letters in ${mostLines} lines; set the rest as another piece.`,
    ),
  circleTooSmall: (radius: Said) =>
    badInput(
      `A circle of ${radius} mm radius is too small for these words.`,
      'Give a larger radius, smaller letters or fewer words.',
    ),
  blank: () => badInput('These words have nothing to print.', 'Type letters.'),
  tooFine: () => badInput('These letters have too fine outlines.', 'Choose a plainer font or fewer words.'),
  tooLarge: (width: Said, height: Said) =>
    badInput(
      `These words would be ${width} mm long and ${height} mm high.`,
      'Give a smaller height of letters, or fewer words.',
    ),
  fontTooSlow: () => badInput('This font takes too long to read.', 'Choose another font file.'),
  fontNotInJob: (font: Said) =>
    badInput(`The font “${font}” is not in this job.`, 'Choose another, or pick its file again.'),
  fontFileTooLarge: (name: Said) =>
    badInput(`“${name}” is too large for a font.`, 'Pick a font with fewer letters.'),
};
