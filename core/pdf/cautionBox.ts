import { ACCENT, type Paper } from '../paper/index.ts';
import { DEFER } from '../press/index.ts';

/** mm round a run sheet's pages. */
export const SHEET_EDGE = 14;

/** General cautions in a box from `y` down; gives the y below it. */
export function cautionBox(paper: Paper, y: number, cautions: readonly string[]): number {
  const room = paper.width - 2 * SHEET_EDGE;
  let at = y - 6;
  for (const words of cautions) at = paper.paragraph(SHEET_EDGE + 3, at, `• ${words}`, 9.5, room - 6) - 0.4;
  at = paper.paragraph(SHEET_EDGE + 3, at, DEFER, 9.5, room - 6, { bold: true });
  paper.rect(SHEET_EDGE, at + 1.5, room, y - at - 1.5, null, ACCENT, 0.4);
  return at - 2;
}
