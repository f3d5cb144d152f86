import type { Face } from './deck/index.ts';
import type { Job, LogEntry } from './job/index.ts';
import { type LearnedTolerance, learnTolerance, type RegisterReading } from './trap/index.ts';
import type { Mm } from './units/index.ts';

/** The readings of one screen that the job's log holds, in the order they were written. */
export interface LoggedScreen {
  readonly face: Face;
  readonly inkId: string;
  readonly readings: readonly RegisterReading[];
}

/** How far pulls lay off on printed decks, screen by screen, in one log. */
function screensIn(log: readonly LogEntry[]): LoggedScreen[] {
  const screens = new Map<string, { face: Face; inkId: string; readings: RegisterReading[] }>();
  for (const { face, inkId, along, across } of log) {
    if (along === undefined || across === undefined) continue;
    const key = `${face} ${inkId}`;
    const screen = screens.get(key) ?? { face, inkId, readings: [] };
    screen.readings.push({ dx: along, dy: across });
    screens.set(key, screen);
  }
  return [...screens.values()];
}

/** The screens of the run under way. */
export const loggedScreens = (job: Job): LoggedScreen[] => screensIn(job.press.log ?? []);

/**
 * The register tolerance that the logs of this run and of earlier ones teach, or null while no screen has been read twice.
 * A screen of an earlier run was set up anew, so that it sits where it sits.
 */
export const learnedTolerance = (job: Job): LearnedTolerance | null =>
  learnTolerance(
    [job.press.log ?? [], ...(job.press.earlier ?? []).map((run) => run.log)]
      .flatMap(screensIn)
      .map((screen) => screen.readings),
  );

/** Readings below which a learned tolerance is little more than a guess: one in twenty must have had its chance. */
export const ENOUGH_READINGS = 20;

/** mm, the learned tolerance as a job holds it: to a hundredth, and never nothing. */
export const asTolerance = (learned: LearnedTolerance): Mm =>
  Math.min(10, Math.max(0.05, Math.ceil(learned.toleranceMm * 100 - 1e-9) / 100));
