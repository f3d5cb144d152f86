import { pressTrouble } from '../sentences/index.ts';
import type { Failure } from '../units/index.ts';

export interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly whole?: boolean;
}

/** The first value out of its bounds as a refusal, or null. */
export function outOfBounds(values: Readonly<Record<string, readonly [number, Bounds]>>): Failure | null {
  for (const [name, [value, { least, most, unit, whole }]] of Object.entries(values)) {
    if (Number.isFinite(value) && value >= least && value <= most && (!whole || Number.isInteger(value)))
      continue;
    const kind = whole ? 'a whole number' : 'a number';
    return pressTrouble.outOfRange(name, kind, least, most, unit === '' ? '' : ` ${unit}`, value);
  }
  return null;
}
