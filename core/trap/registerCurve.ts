import type { Mask } from '../raster/index.ts';
import type { Mm } from '../units/index.ts';
import type { Spread } from './percentile.ts';
import { type RegisterOptions, simulateRegister } from './simulateRegister.ts';

/** What the 95th percentile must not exceed; a limit left out does not count. */
export interface GapLimit {
  readonly areaMm2?: number;
  readonly widestMm?: Mm;
}

export interface RegisterCurveRequest extends RegisterOptions {
  /** Where the art has any ink. */
  readonly wanted: Mask;
  /** What every ink prints, by place in the pull order, with traps of this width. */
  readonly printsAt: (widthMm: Mm) => readonly Mask[];
  /** mm, in the order to try. */
  readonly widthsMm: readonly Mm[];
  readonly limit: GapLimit;
}

export interface RegisterPoint {
  readonly widthMm: Mm;
  readonly areaMm2: Spread;
  readonly widestMm: Spread;
}

export interface RegisterCurve {
  /** Ascending by width. */
  readonly points: readonly RegisterPoint[];
  /** The smallest width tried that keeps within the limit; null when none does. */
  readonly recommendedMm: Mm | null;
}

/** mm, ascending, each once. */
export const inOrder = (widthsMm: readonly Mm[]): Mm[] => [...new Set(widthsMm)].sort((a, b) => a - b);

/** A curve from its points, ascending by width. */
export function curveOf(points: readonly RegisterPoint[], limit: GapLimit): RegisterCurve {
  const within = points.find(
    (point) =>
      point.areaMm2.p95 <= (limit.areaMm2 ?? Infinity) && point.widestMm.p95 <= (limit.widestMm ?? Infinity),
  );
  return { points, recommendedMm: within?.widthMm ?? null };
}

/**
 * The readable definition of the program's `trialCurve`, in one loop; tests hold the two equal.
 *
 * Gap against trap width: the same random errors are tried on the prints of every width, so that the curve shows the
 * width and not the luck of the draw. Stops with the points it has once `abort` says so.
 */
export function registerCurve(request: RegisterCurveRequest): RegisterCurve {
  const { widthsMm, limit, progress, abort } = request;
  const widths = inOrder(widthsMm);
  const points: RegisterPoint[] = [];
  for (const [n, widthMm] of widths.entries()) {
    if (abort?.aborted) break;
    const { areaMm2, widestMm, trials } = simulateRegister(request.printsAt(widthMm), request.wanted, {
      ...request,
      progress:
        progress && ((done, text) => progress((n + done) / widths.length, `trap ${widthMm} mm, ${text}`)),
    });
    if (trials === request.trials) points.push({ widthMm, areaMm2, widestMm });
  }
  return curveOf(points, limit);
}
