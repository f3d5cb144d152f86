import type { Face } from './deck/index.ts';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { type FaceJob, isToned, type Job } from './job/index.ts';
import { printAll } from './printInk.ts';
import { blankMask, type Mask, union } from './raster/index.ts';
import { filmTrouble } from './sentences/index.ts';
import {
  curveOf,
  gatherTrials,
  inOrder,
  type RegisterCurve,
  type RegisterPoint,
  runTrials,
  type TrialShown,
} from './trap/index.ts';
import { type Abort, cancelled, done, type Mm, type Outcome, type Progress } from './units/index.ts';

/** Dots an inch at which register errors are tried: 0.13 mm a point, well below what a hand strays. */
export const TRIAL_DPI = 200;
/** mm² of gaps on a whole face that pass unseen on a finished deck. Common practice, no source: a thumbnail is about 100. */
export const ACCEPTED_MM2 = 300;
export const USUAL_TRIALS = 200;
/** Trials of one part at least, so that making ready does not outweigh them; and parts of a whole run at least. */
const LEAST_PART = 25;
const PARTS = 16;

/** Trap widths worth trying, mm: none to twice what a hand strays, in eight steps. */
export const widthsFor = (toleranceMm: Mm): Mm[] => {
  const most = Math.max(0.4, 2 * toleranceMm);
  return Array.from({ length: 9 }, (_, i) => Number(((most * i) / 8).toFixed(2)));
};

/** A face as it is tried. Separations in pull order, at `dpi`. */
export interface TriedFace {
  readonly settings: FaceJob;
  readonly separations: readonly Mask[];
  readonly dpi: number;
}

/** What is tried on it. */
export interface TrialWish {
  readonly toleranceMm: Mm;
  readonly trials: number;
  /** Of 32 bits; the same seed, the same errors at every width. */
  readonly seed: number;
}

/** The trials `from` up to `from + count` at one trap width. */
export interface TrialPart extends TrialWish {
  readonly widthMm: Mm;
  readonly from: number;
  readonly count: number;
}

export interface CurveWish extends TrialWish {
  readonly widthsMm: readonly Mm[];
  /** mm² that 95 trials of 100 must keep within. */
  readonly limitMm2: number;
}

/** One part of the trials, by itself: a task for any thread. */
export function trialPart(face: TriedFace, part: TrialPart): TrialShown[] {
  const { settings, separations, dpi } = face;
  const first = separations[0];
  if (!first) return [];
  const wanted = blankMask(first.width, first.height);
  for (const mask of separations) union(wanted, mask, wanted);
  const place = settings.inks.findIndex((ink) => ink.role === 'base');
  const prints = printAll(
    separations,
    { ...settings, traps: { ...settings.traps, width: part.widthMm } },
    dpi,
  );
  const base = place >= 0 ? { place, own: separations[place] as Mask } : null;
  return runTrials(prints, wanted, { ...part, dpi, base }, part.from, part.count);
}

/**
 * Gap against trap width, part by part: `run` is asked for as many parts at once as there are `lanes`, and may do them
 * anywhere. The curve is the same for any number of lanes. Cancelled once `abort` says so; parts under way are waited for.
 */
export async function trialCurve(
  wish: CurveWish,
  lanes: number,
  run: (part: TrialPart, lane: number) => Promise<readonly TrialShown[]>,
  progress: Progress = () => {},
  abort?: Abort,
): Promise<Outcome<RegisterCurve>> {
  const { toleranceMm, trials, seed } = wish;
  const widths = inOrder(wish.widthsMm);
  const size = Math.max(LEAST_PART, Math.ceil((trials * widths.length) / PARTS));
  const parts: TrialPart[] = widths.flatMap((widthMm) =>
    Array.from({ length: Math.ceil(trials / size) }, (_, i) => {
      const from = i * size;
      return { toleranceMm, trials, seed, widthMm, from, count: Math.min(size, trials - from) };
    }),
  );
  const shown: (readonly TrialShown[])[] = [];
  let next = 0;
  let tried = 0;
  const lane = async (_: unknown, which: number) => {
    for (let i = next++; i < parts.length; i = next++) {
      if (abort?.aborted) return;
      const part = parts[i] as TrialPart;
      shown[i] = await run(part, which);
      tried += part.count;
      const all = trials * widths.length;
      progress(tried / all, `trial ${tried} of ${all}, trap ${part.widthMm} mm`);
    }
  };
  await Promise.all(Array.from({ length: lanes }, lane));
  if (abort?.aborted) return cancelled();
  const points = widths.map((widthMm): RegisterPoint => {
    const own = parts.flatMap((part, i) => (part.widthMm === widthMm ? (shown[i] ?? []) : []));
    const { areaMm2, widestMm } = gatherTrials(own);
    return { widthMm, areaMm2, widestMm };
  });
  return done(curveOf(points, { areaMm2: wish.limitMm2 }));
}

/** Dots carry no traps: a sentence for a face that is printed in them. */
export function refuseDots(job: Job, face: Face): Outcome<null> {
  if (!isToned(job.faces[face])) return done(null);
  return filmTrouble.dotsWithoutTraps(face);
}

/** What a hand that strays by up to the tolerance shows on one face, at each trap width. */
export async function tryTraps(
  job: Job,
  face: Face,
  wish: CurveWish,
  tools: MaskTools,
): Promise<Outcome<RegisterCurve>> {
  const can = refuseDots(job, face);
  if (!can.ok) return can;
  const say = tools.progress ?? (() => {});
  const made = await faceMasks(job, face, TRIAL_DPI, 'surface', {
    ...tools,
    progress: (share, text) => say(0.3 * share, text),
  });
  if (!made.ok) return made;
  const tried: TriedFace = {
    settings: job.faces[face],
    separations: made.value.separations,
    dpi: TRIAL_DPI,
  };
  return trialCurve(
    wish,
    tools.workers.count,
    (part) => tools.workers.run('trialPart', { face: tried, part }, tools.abort),
    (share, text) => say(0.3 + 0.7 * share, `${face}: ${text}`),
    tools.abort,
  );
}
