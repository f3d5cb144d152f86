import { badInput, type Said } from './failure.ts';

export const outlineTrouble = {
  dxfTooLong: () => badInput('The DXF is over 8 million characters.', 'Keep only the outline in the file.'),
  dxfBinary: () => badInput('The file is a binary DXF.', 'Save it as ASCII (text) DXF.'),
  dxfUnread: () =>
    badInput(
      'The file can not be read as DXF.',
      'Save the outline again as ASCII DXF, with only lines, arcs, polylines and splines.',
    ),
  svgTooLong: () => badInput('The SVG is over 8 million characters.', 'Keep only the outline in the file.'),
  svgTooMuch: () => badInput('The SVG holds far more than an outline.', 'Keep only the outline in the file.'),
  svgUnread: (trouble: Said) =>
    badInput(`The file can not be read as SVG: ${trouble}.`, 'Save the outline again as plain SVG.'),
  tooManyPieces: (pieces: Said, most: Said) =>
    badInput(
      `The drawing has ${pieces} pieces of line; an outline is read from at most ${most}.`,
      'Keep only the outline in the file.',
    ),
  noClosedLine: () =>
    badInput('The drawing holds no closed line.', 'Draw the deck’s outline as one closed path.'),
  open: (gap: Said) =>
    badInput(
      `The outline is open: its ends are ${gap} mm apart.`,
      'Close the path; gaps up to 0.2 mm are closed for you.',
    ),
  wrongPoints: (points: Said, most: Said) =>
    badInput(
      `The outline has ${points} points.`,
      `Draw it with 3 to ${most} points, with curves where it is round.`,
    ),
  wrongSize: (length: Said, width: Said) =>
    badInput(
      `The outline is ${length} × ${width} mm, which no deck is.`,
      'Save the drawing with its true size in mm or inches, nose right or up.',
    ),
  crosses: (fromTail: Said) =>
    badInput(
      `The outline crosses itself ${fromTail} mm from its tail end.`,
      'Draw it as one loop that never crosses itself.',
    ),
};
