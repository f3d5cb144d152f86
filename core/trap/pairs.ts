import { labOfHex } from '../colour/index.ts';
import type { Mm } from '../units/index.ts';

/** What decides how an ink traps. */
export interface TrapInk {
  readonly id: string;
  /** sRGB as it looks over white. */
  readonly hex: string;
  /** Share of what lies under it that one pass hides, 0 to 1. */
  readonly opacity: number;
  /** `clear` never traps; every other kind does. */
  readonly kind: string;
  readonly role: 'colour' | 'base';
}

/** The face's trap settings; the job's own fit. */
export interface TrapSettings {
  /** mm each ink spreads where nothing else is said. */
  readonly width: Mm;
  /** Where the printer decides otherwise; the last that names a pair counts. */
  readonly pairs: readonly {
    readonly a: string;
    readonly b: string;
    readonly spreads: 'a' | 'b' | 'none';
    readonly width: Mm | null;
  }[];
}

/** One line of the pair table: ink `spreads` runs `widthMm` into ink `under` (both by place in the pull order, from 0). */
export interface PairRule {
  readonly spreads: number;
  readonly under: number;
  /** 0: the two stay butted. */
  readonly widthMm: Mm;
  /** One sentence: why this way round. */
  readonly why: string;
  /** Set by the printer rather than by the rule. */
  readonly overridden: boolean;
}

/** An ink that hides at least this share covers what runs under it: its own edge is the one seen. Common practice. */
export const HIDES = 0.9;

/**
 * Who spreads under whom, for every two inks in pull order. Ink i before ink j: where j hides what is under it, i runs
 * under j; otherwise the lighter (CIE L*) runs into the darker, and of two alike the earlier into the later. Clear coats
 * never trap and have no line.
 */
export function trapPairs(inks: readonly TrapInk[], settings: TrapSettings): PairRule[] {
  const lightness = inks.map((ink) => labOfHex(ink.hex).l);
  const rules: PairRule[] = [];
  for (let i = 0; i < inks.length; i++)
    for (let j = i + 1; j < inks.length; j++) {
      const [early, late] = [inks[i]!, inks[j]!];
      if (early.kind === 'clear' || late.kind === 'clear') continue;
      const said = settings.pairs.findLast(
        ({ a, b }) => (a === early.id && b === late.id) || (a === late.id && b === early.id),
      );
      const byRule = direction(i, j, late, lightness);
      if (!said) {
        rules.push({ ...byRule, widthMm: settings.width, overridden: false });
        continue;
      }
      if (said.spreads === 'none') {
        rules.push({ ...byRule, widthMm: 0, why: 'You keep these two butted.', overridden: true });
        continue;
      }
      const spreader = said.spreads === 'a' ? said.a : said.b;
      const [spreads, under] = spreader === early.id ? [i, j] : [j, i];
      const why = spreads === byRule.spreads ? 'You set this width.' : 'You turned this pair round.';
      rules.push({ spreads, under, widthMm: said.width ?? settings.width, why, overridden: true });
    }
  return rules;
}

function direction(i: number, j: number, late: TrapInk, lightness: readonly number[]) {
  if (late.opacity >= HIDES) return { spreads: i, under: j, why: 'The later ink hides what runs under it.' };
  if (lightness[i]! === lightness[j]!)
    return { spreads: i, under: j, why: 'Both are equally light; the earlier runs under.' };
  return lightness[i]! > lightness[j]!
    ? { spreads: i, under: j, why: 'The lighter runs under the darker.' }
    : { spreads: j, under: i, why: 'The lighter runs over the darker, whose edge is the one seen.' };
}
