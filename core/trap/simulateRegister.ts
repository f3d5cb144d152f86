import type { Mask } from '../raster/index.ts';
import { type Abort, type Progress, pxPerMm } from '../units/index.ts';
import { type Spread, spreadOf } from './percentile.ts';
import { drawPullError, type PullError } from './pullError.ts';
import { randomStream } from './randomStream.ts';
import { RegisterRun, type RegisterSetting, type TrialShown } from './registerRun.ts';

export interface RegisterOptions extends RegisterSetting {
  readonly trials: number;
  readonly seed: number;
  readonly progress?: Progress | undefined;
  readonly abort?: Abort | undefined;
}

export interface RegisterResult {
  /** mm² of wood or base showing where the art shows neither. */
  readonly areaMm2: Spread;
  /** mm across the widest such gap, to a point of the raster. */
  readonly widestMm: Spread;
  /** The two apart. */
  readonly woodMm2: Spread;
  readonly baseMm2: Spread;
  /** Area of each trial in the order they ran, mm². */
  readonly trialsMm2: readonly number[];
  /** Fewer than asked for when it was stopped. */
  readonly trials: number;
}

/**
 * What register error does to these prints: in each trial every pull is shifted and turned at random within the tolerance
 * (`drawPullError`), the pulls are laid over each other, and the deck is searched for wood, or base, where the art has
 * neither. `wanted` is where the art has any ink; all masks share one size, at `dpi`. The turn is about the raster's
 * middle; a raster is taken to be as long as its art.
 *
 * Beside bare wood a strip as wide as the tolerance is left out: there the shift of a whole shape bares wood whatever
 * the traps, and shows no gap. Base counts wherever the art does not show it, beyond the art's outer edges too, but for as
 * wide a strip beside its own white, where an edge of the art moves and nothing is uncovered that was hidden.
 *
 * The same input and seed give the same result. Seeds are of 32 bits.
 */
export const simulateRegister = (
  prints: readonly Mask[],
  wanted: Mask,
  options: RegisterOptions,
): RegisterResult => gatherTrials(runTrials(prints, wanted, options));

/**
 * The trials `from` up to `from + count` of those that the seed gives (all of them when left out): parts of a run, made
 * anywhere and in any order, laid end to end are the run.
 */
export function runTrials(
  prints: readonly Mask[],
  wanted: Mask,
  options: RegisterOptions,
  from = 0,
  count: number = options.trials,
): TrialShown[] {
  const { toleranceMm, dpi, seed, trials, progress, abort } = options;
  const run = new RegisterRun(prints, wanted, options);
  const next = randomStream(seed);
  const length = wanted.width / pxPerMm(dpi);
  const shown: TrialShown[] = [];
  for (let trial = 0; trial < Math.min(trials, from + count) && !abort?.aborted; trial++) {
    // Drawn for every trial before this part's own too: the stream is one.
    const errors = prints.map(() => drawPullError(next, toleranceMm, length));
    if (trial < from) continue;
    shown.push(run.trial(errors));
    progress?.(shown.length / count, `trial ${trial + 1} of ${trials}`);
  }
  return shown;
}

/** The percentiles of a run from its trials. */
export function gatherTrials(shown: readonly TrialShown[]): RegisterResult {
  const areas = shown.map((trial) => trial.woodMm2 + trial.baseMm2);
  return {
    areaMm2: spreadOf(areas),
    widestMm: spreadOf(shown.map((trial) => trial.widestMm)),
    woodMm2: spreadOf(shown.map((trial) => trial.woodMm2)),
    baseMm2: spreadOf(shown.map((trial) => trial.baseMm2)),
    trialsMm2: areas,
    trials: areas.length,
  };
}

/** What shows with every pull off by `errors` (by place in the pull order), measured as `simulateRegister` does. */
export function showRegister(
  prints: readonly Mask[],
  wanted: Mask,
  errors: readonly PullError[],
  setting: RegisterSetting,
): TrialShown & { readonly gaps: Mask } {
  const run = new RegisterRun(prints, wanted, setting);
  return { ...run.trial(errors), gaps: run.gaps };
}
