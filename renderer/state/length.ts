import { MM_PER_INCH } from '../../core/units/index.ts';

export type Units = 'mm' | 'in';

/** A length as the studio shows it, with its unit: `209.6 mm`, `8.25 in`. */
export function formatLength(mm: number, units: Units, digits = units === 'mm' ? 1 : 3): string {
  return `${lengthNumber(mm, units, digits)} ${units}`;
}

/** The bare number of `formatLength`, without trailing noughts. */
export function lengthNumber(mm: number, units: Units, digits = units === 'mm' ? 2 : 3): string {
  const n = units === 'mm' ? mm : mm / MM_PER_INCH;
  return String(Number(n.toFixed(digits)));
}
