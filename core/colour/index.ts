export { colourName, colourNames } from './colourName.ts';
export { deltaE00 } from './deltaE.ts';
export {
  type Lab,
  labOfHex,
  labOfLinear,
  luminanceOfHex,
  luminanceOfLinear,
  seenSlopes,
} from './lab.ts';
export { linearOfOklab, type Oklab, oklabOfLinear } from './oklab.ts';
export { type NamedColour, parsePalette, writeGpl, writePaletteJson } from './palette.ts';
export {
  byteOfLinear,
  hexOfLinear,
  LINEAR_OF_BYTE,
  type LinearRgb,
  linearOfHex,
  linearOfRgb8,
  linearToSrgb,
  parseHex,
  type Rgb8,
  srgbToLinear,
  toHex,
} from './srgb.ts';
