import type { RegisterCurve } from '../../core/trap/index.ts';
import { widthsFor } from '../../core/trapTrials.ts';
import { tell, useStudio } from '../state/index.ts';
import { tryRegister } from '../workers/index.ts';
import { glassOf } from './looking.ts';

/** What the trials are asked. */
export interface TrialChoice {
  readonly toleranceMm: number;
  /** mm² of gaps on the whole face that is accepted. */
  readonly limitMm2: number;
  readonly trials: number;
}

/**
 * Tries register errors on the shown face at several trap widths. Gives the curve, or null when it was stopped or there is
 * nothing to try; `stop` ends it at once, whatever it is doing.
 */
export function tryTraps(
  choice: TrialChoice,
  progress: (done: number, text: string) => void,
): { readonly curve: Promise<RegisterCurve | null>; stop(): void } {
  let end: (() => void) | undefined;
  const stopped = new Promise<null>((resolve) => {
    end = () => resolve(null);
  });
  let stopTrials: (() => void) | undefined;
  let over = false;
  const run = async (): Promise<RegisterCurve | null> => {
    const state = useStudio.getState();
    const { job, face } = state;
    if (!job) return null;
    progress(0, 'separating the art');
    const made = await (await glassOf(state)).separations(job, face);
    if (!made.ok) {
      tell('trouble', made.reason, made.mend);
      return null;
    }
    if (over) return null;
    const trials = tryRegister(
      {
        settings: job.faces[face],
        separations: made.value.masks,
        dpi: made.value.dpi,
      },
      { ...choice, seed: 1, widthsMm: widthsFor(choice.toleranceMm) },
      progress,
    );
    stopTrials = trials.stop;
    const curve = await trials.curve;
    return curve.ok ? curve.value : null;
  };
  return {
    curve: Promise.race([run(), stopped]),
    stop() {
      over = true;
      stopTrials?.();
      end?.();
    },
  };
}
