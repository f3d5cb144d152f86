/** One screen as it was burned: with what, for how long, and how it came out. */
export interface BurnedScreen {
  readonly emulsion: string;
  readonly lamp: string;
  readonly meshPerCm: number;
  readonly dyed: boolean;
  /** mm, lamp to glass. */
  readonly distance: number;
  /** Seconds. */
  readonly time: number;
  /** Last solid step of the tablet; absent: no tablet was on it. */
  readonly step?: number;
  readonly targetStep?: number;
}

export interface ExposureHistory {
  readonly count: number;
  /** Seconds: geometric mean of the times, each brought to its wanted step. */
  readonly time: number;
  /** Spread as a factor: two thirds of the screens lie within time ÷ and × this. */
  readonly spread: number;
}

/** Whether a screen can tell about another: same emulsion, lamp and dyeing, mesh count within a tenth. */
export const isAlike = (
  screen: BurnedScreen,
  like: Pick<BurnedScreen, 'emulsion' | 'lamp' | 'meshPerCm' | 'dyed'>,
): boolean =>
  screen.emulsion === like.emulsion &&
  screen.lamp === like.lamp &&
  screen.dyed === like.dyed &&
  Math.abs(screen.meshPerCm / like.meshPerCm - 1) <= 0.1;

/** What earlier screens of the same emulsion, lamp and dyeing, mesh count within a tenth, say about the time; null: none. */
export function exposureHistory(
  log: readonly BurnedScreen[],
  like: Pick<BurnedScreen, 'emulsion' | 'lamp' | 'meshPerCm' | 'dyed' | 'distance'>,
): ExposureHistory | null {
  const logs: number[] = [];
  for (const screen of log) {
    if (!isAlike(screen, like) || !(screen.time > 0 && screen.distance > 0)) continue;
    const steps = screen.step === undefined ? 0 : (screen.targetStep ?? 7) - screen.step;
    logs.push(Math.log(screen.time * 10 ** (0.15 * steps) * (like.distance / screen.distance) ** 2));
  }
  if (logs.length === 0) return null;
  const mean = logs.reduce((a, b) => a + b, 0) / logs.length;
  const off = logs.reduce((a, b) => a + (b - mean) ** 2, 0) / Math.max(1, logs.length - 1);
  return { count: logs.length, time: Math.exp(mean), spread: Math.exp(Math.sqrt(off)) };
}
