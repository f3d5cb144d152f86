import type { Deck } from '../../core/deck/index.ts';
import type { Calculation } from '../../core/press/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import type { Given, OptionSpec } from './options.ts';

/** A number of a result in words: where it lies, what it is called, and its unit. */
export interface Row {
  readonly path: readonly string[];
  readonly label: string;
  /** `mm³` is mm to three places; `''` is said as it is. */
  readonly unit: 'mm' | 'mm³' | '%' | '×' | 'ml' | 'g' | 's' | 'µm' | '°' | 'cm²' | 'cm³/m²' | '';
}

export interface Calculator {
  readonly name: string;
  readonly does: string;
  readonly example: string;
  /** Names of the options it takes beside the deck's own. */
  readonly options: readonly OptionSpec[];
  run(given: Given, deck: Deck): Outcome<{ readonly inputs: object; readonly found: Calculation<object> }>;
  readonly rows: readonly Row[];
}
