import { optionTrouble } from '../sentences/index.ts';
import { MM_PER_INCH, type Mm } from './length.ts';
import { done, type Outcome } from './outcome.ts';

/** Millimetres in each unit; the marks for inches are those people type, and the true double prime. */
const UNITS: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  '”': MM_PER_INCH,
  '″': MM_PER_INCH,
  "''": MM_PER_INCH,
};

/** Sign; a number, a whole number with a fraction, or a fraction alone; then the unit. */
const LENGTH =
  /^([+-]?)\s*(?:(\d+)(?:\s+|-)(\d+)\s*[/⁄]\s*(\d+)|(\d+)\s*[/⁄]\s*(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*([a-z"”″']*)$/i;

/** Longest text that can be a length; anything longer is not worth reading. */
const LONGEST_TEXT = 40;

/**
 * A length as people write it, in mm: `210`, `210mm`, `21 cm`, `8.25in`, `8 1/4"`, `3/4 in`, `8,25"`. A bare number is
 * taken in `bare`. Sums, two units and anything else are refused with a sentence.
 */
export function parseLength(text: string, bare: 'mm' | 'in' = 'mm'): Outcome<Mm> {
  const shown = text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT)}…` : text;
  const refuse = () => optionTrouble.notLength(shown);
  const match = text.length > LONGEST_TEXT ? null : LENGTH.exec(text.trim());
  if (!match) return refuse();
  const [, sign, whole, over, under, overOnly, underOnly, decimal, unit] = match;
  const factor = unit ? UNITS[unit.toLowerCase()] : UNITS[bare];
  if (factor === undefined) return refuse();
  let number: number;
  if (decimal !== undefined) number = Number(decimal.replace(',', '.'));
  else {
    const divisor = Number(under ?? underOnly);
    if (divisor === 0) return refuse();
    number = Number(whole ?? 0) + Number(over ?? overOnly) / divisor;
  }
  const length = number * factor * (sign === '-' ? -1 : 1);
  return Number.isFinite(length) ? done(length) : refuse();
}
