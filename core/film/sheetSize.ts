import { badInput, done, type Mm, type Outcome } from '../units/index.ts';

/** One piece of transparency, upright as it lies in the printer's tray. mm. */
export interface SheetSize {
  readonly name: string;
  readonly width: Mm;
  readonly height: Mm;
}

/**
 * Known sheets. Letter, legal and tabloid: inch sizes of the American office trade (Letter = ANSI A, Tabloid = ANSI B of
 * ANSI/ASME Y14.1; Legal is a trade size). A sizes: ISO 216. Legal's inches are from memory. `a3plus` is common practice
 * among ink-jet makers, no standard behind it.
 */
export const SHEETS: readonly SheetSize[] = [
  { name: 'letter', width: 215.9, height: 279.4 },
  { name: 'legal', width: 215.9, height: 355.6 },
  { name: 'tabloid', width: 279.4, height: 431.8 },
  { name: 'a4', width: 210, height: 297 },
  { name: 'a3', width: 297, height: 420 },
  { name: 'a3plus', width: 329, height: 483 },
  { name: 'a2', width: 420, height: 594 },
  { name: 'a1', width: 594, height: 841 },
  { name: 'a5', width: 148, height: 210 },
  { name: 'ansi-c', width: 431.8, height: 558.8 },
  { name: 'ansi-d', width: 558.8, height: 863.6 },
];

/** Largest side of a PDF page without a user unit, mm: 14400 points (ISO 32000-1, annex C, from memory). */
export const LONGEST_SHEET: Mm = 5080;

/** A known sheet by name, upper or lower case. */
export function sheetNamed(name: string): SheetSize | undefined {
  const wanted = name.trim().toLowerCase();
  return SHEETS.find((sheet) => sheet.name === wanted);
}

/** A sheet of the user's own size, mm; refuses what no page can be. */
export function customSheet(width: Mm, height: Mm): Outcome<SheetSize> {
  const right = (side: Mm) => Number.isFinite(side) && side >= 20 && side <= LONGEST_SHEET;
  if (right(width) && right(height)) return done({ name: 'custom', width, height });
  return badInput(
    `A sheet must be 20 to ${LONGEST_SHEET} mm on each side, but ${width} × ${height} mm was asked for.`,
    `Measure the film you print on, or choose one of ${SHEETS.map((s) => s.name).join(', ')}.`,
  );
}
