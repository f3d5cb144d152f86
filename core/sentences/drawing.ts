import { badInput, type Said } from './failure.ts';

export const drawingTrouble = {
  pictureDamaged: (name: Said) =>
    badInput(`A picture embedded in the drawing “${name}” is damaged.`, 'Embed it again, or remove it.'),
  picturesTooLarge: (name: Said, most: Said) =>
    badInput(
      `The pictures embedded in the drawing “${name}” have more than ${most} million points.`,
      'Scale them down to 600 dpi at their size on the deck.',
    ),
  otherEncoding: (name: Said, stated: Said) =>
    badInput(
      `The drawing “${name}” is not written in the encoding it states (${stated}).`,
      'Save it as UTF-8.',
    ),
  tooLarge: (name: Said, megabytes: Said) =>
    badInput(
      `The drawing “${name}” is larger than ${megabytes} MB.`,
      'Simplify it, or export it as a PNG at 600 dpi.',
    ),
  refersOutside: (name: Said) =>
    badInput(
      `The drawing “${name}” refers to something outside itself.`,
      'Embed linked pictures, fonts and styles in your editor, then save the drawing again.',
    ),
  script: (name: Said) =>
    badInput(
      `The drawing “${name}” holds a script.`,
      'Save it as plain SVG, without scripts or links that run them.',
    ),
  cutShort: (name: Said) =>
    badInput(
      `The drawing “${name}” is damaged: its text ends in the middle.`,
      'Save it again from your editor.',
    ),
  entities: (name: Said) =>
    badInput(
      `The drawing “${name}” declares entities of its own.`,
      'Save it as plain SVG: your editor then writes the text out in full.',
    ),
  tagsUnmatched: (name: Said) =>
    badInput(`The drawing “${name}” is damaged: its tags do not match.`, 'Save it again from your editor.'),
  tooManyElements: (name: Said, most: Said) =>
    badInput(
      `The drawing “${name}” has more than ${most} elements.`,
      'Simplify it, or export it as a PNG at 600 dpi.',
    ),
  tooDeep: (name: Said, deepest: Said) =>
    badInput(
      `The drawing “${name}” is nested more than ${deepest} deep.`,
      'Ungroup it in your editor, or export it as a PNG at 600 dpi.',
    ),
  foreignDocument: (name: Said, element: Said) =>
    badInput(
      `The drawing “${name}” holds a foreign document (${element}).`,
      'Turn that part into paths, or export it as a PNG at 600 dpi.',
    ),
  notSvg: (name: Said, root: Said) =>
    badInput(`“${name}” is XML, but its root is “${root}”, not svg.`, 'Save it as plain SVG.'),
  twoRoots: (name: Said) =>
    badInput(`The drawing “${name}” is damaged: it has two roots.`, 'Save it again from your editor.'),
  tooManyCopies: (name: Said, most: Said) =>
    badInput(
      `The drawing “${name}” copies its parts more than ${most} times, or endlessly.`,
      'Unlink the clones in your editor, or export it as a PNG at 600 dpi.',
    ),
  badSize: (name: Said, what: Said) =>
    badInput(`The drawing “${name}” states ${what}.`, 'Set the page size in your editor and save it again.'),
};
