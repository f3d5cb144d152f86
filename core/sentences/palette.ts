import { badInput, type Said } from './failure.ts';

const FORMS =
  'Give a GIMP palette (first line “GIMP Palette”), or JSON like [{"name":"Coral","hex":"#e8613c"}].';

export const paletteTrouble = {
  lineUnread: (line: Said) =>
    badInput(
      `Line ${line} of the palette is not three numbers from 0 to 255 and a name.`,
      'Write each colour like “232 97 60 Coral”.',
    ),
  notWholeJson: () => badInput('The palette is not whole JSON.', FORMS),
  noList: () => badInput('The palette’s JSON holds no list of colours.', FORMS),
  colourWithoutHex: (colour: Said) => badInput(`Colour ${colour} of the palette has no #rrggbb.`, FORMS),
  unknownForm: () => badInput('This is not a palette Kickflat can read.', FORMS),
  empty: () => badInput('The palette holds no colours.', FORMS),
  tooManyColours: (colours: Said, most: Said) =>
    badInput(
      `The palette holds ${colours} colours, and ${most} is the most that is read.`,
      'Keep only your inks in it.',
    ),
};
