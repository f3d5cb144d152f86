import { filmTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';

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
  return filmTrouble.sheetOutOfRange(LONGEST_SHEET, width, height, SHEETS.map((s) => s.name).join(', '));
}

/** Widths a film roll comes in, mm: 17, 24, 36 and 44 inches (common practice, no source). Any other width may be named too. */
export const ROLL_WIDTHS: readonly Mm[] = [432, 610, 914, 1118];

/** mm a whole-deck film needs beyond the deck's own length: marks at both ends, label strip and margins. */
const ROLL_BEYOND = 60;
/** Share by which mesh growth and flattening may lengthen a film. */
const ROLL_GROWTH = 1.02;

/** Width of a roll named like `roll-610`, mm; undefined for any other name. */
export function rollWidth(name: string): Mm | undefined {
  const digits = /^roll-(\d{2,4})$/.exec(name.trim().toLowerCase())?.[1];
  return digits === undefined ? undefined : Number(digits);
}

/**
 * The sheet a printer profile names. A roll is cut every so often that one page holds a film of `longest` mm, the same for
 * both faces; whole centimetres. Anything unknown is a custom sheet of the profile's own size. Refuses impossible sizes.
 */
export function printerSheet(
  printer: { readonly sheet: string; readonly sheetWidth: Mm; readonly sheetHeight: Mm },
  longest: Mm,
): Outcome<SheetSize> {
  const known = sheetNamed(printer.sheet);
  if (known) return done(known);
  const width = rollWidth(printer.sheet);
  if (width === undefined) return customSheet(printer.sheetWidth, printer.sheetHeight);
  const sheet = customSheet(width, Math.ceil((longest * ROLL_GROWTH + ROLL_BEYOND) / 10) * 10);
  return sheet.ok ? done({ ...sheet.value, name: `roll-${width}` }) : sheet;
}
