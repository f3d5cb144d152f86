import { badInput, type Said } from './failure.ts';

const SAVE_AS = 'Save it as PNG, JPEG, WebP, TIFF, AVIF or SVG, or in layers as PDF or OpenRaster.';

export const artTrouble = {
  noSize: (name: Said) =>
    badInput(
      `“${name}” states no size in mm or dpi.`,
      'Fit it to the deck (--fit cover, --fit contain), or say its resolution (--art-dpi).',
    ),
  wrongSize: (name: Said, width: Said, height: Said) =>
    badInput(
      `“${name}” would be ${width} × ${height} mm on the deck.`,
      'A piece of art may be 0.1 to 5000 mm a side: give another --art-dpi, or choose --fit contain.',
    ),
  transparent: (name: Said) =>
    badInput(
      `“${name}” is transparent all over.`,
      'Show the hidden layers in your editor and save it again.',
    ),
  tooManyLayers: (name: Said, most: Said) =>
    badInput(
      `“${name}” has more than ${most} layers.`,
      'Merge the layers of one ink in your editor, and remove those that do not print.',
    ),
  layersTooLarge: (name: Said, each: Said, all: Said) =>
    badInput(
      `The layers of “${name}” have more points than Kickflat takes (${each} million each, ${all} million in all).`,
      'Scale the picture down: 600 dpi at the size of the deck is all a film can show.',
    ),
  openRasterDamaged: (name: Said, what: Said) =>
    badInput(
      `The OpenRaster picture “${name}” is damaged: ${what}.`,
      'Open it in your editor and save it as OpenRaster again, or export each layer as a PNG.',
    ),
  layerBlended: (name: Said, mode: Said) =>
    badInput(
      `A layer of “${name}” is blended by “${mode}”.`,
      'Set it to plain blending, or merge it in your editor: an ink can only lie over another.',
    ),
  noLayers: (name: Said) =>
    badInput(`“${name}” has no layers.`, 'Save it again with at least one layer for each ink.'),
  tooManyPoints: (name: Said, width: Said, height: Said, most: Said) =>
    badInput(
      `“${name}” has ${width} × ${height} points, more than the ${most} million Kickflat takes.`,
      'Save it smaller: 600 dpi at the size of the deck is all a film can show.',
    ),
  damaged: (name: Said, kind: Said) =>
    badInput(
      `“${name}” is damaged or not a whole ${kind} picture.`,
      `Open it in your editor and save it as ${kind} again.`,
    ),
  tooSlow: (name: Said, seconds: Said) =>
    badInput(
      `“${name}” takes longer than ${seconds} s to open.`,
      'Simplify it, or export it as a PNG at 600 dpi.',
    ),
  pdfDamaged: (name: Said) =>
    badInput(
      `The PDF “${name}” is damaged or can not be drawn.`,
      'Save it again from your editor, or export each layer as a PNG.',
    ),
  tooLarge: (name: Said, most: Said) =>
    badInput(
      `“${name}” is larger than ${most} MB.`,
      'Save it smaller: 600 dpi at the size of the deck is all a film can show.',
    ),
  empty: (name: Said) => badInput(`“${name}” is empty.`, 'Save the picture again and check that it opens.'),
  filmOrCamera: (name: Said) => badInput(`“${name}” is a film or a camera picture of another kind.`, SAVE_AS),
  utf16: (name: Said) => badInput(`“${name}” is text in UTF-16.`, 'Save the SVG as UTF-8.'),
  otherKind: (name: Said, kind: Said) => badInput(`“${name}” is ${kind}.`, SAVE_AS),
  unknown: (name: Said) => badInput(`“${name}” is not a picture Kickflat knows.`, SAVE_AS),
};
