import type { Job, Press } from './job/index.ts';
import { type RunPlanInput, USUAL_TIMES } from './press/index.ts';
import { runProgress } from './runLog.ts';
import { hoursOf, inkIn, lotsOf, pullsOf } from './runOf.ts';

/** The weekday of day 0, 0 is Monday: the start date's where one is given (ISO 8601, proleptic Gregorian). */
export function firstWeekdayOf({ startDate, firstWeekday }: Press): number {
  const [year, month, day] = startDate?.split('-').map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return firstWeekday ?? 5;
  return (new Date(Date.UTC(year, month - 1, day)).getUTCDay() + 6) % 7;
}

/** What the run plan is made from. */
export function runPlanInput(job: Job): RunPlanInput {
  const { press } = job;
  const lots = lotsOf(job);
  const { decks, printed } = runProgress(job);
  const pulls = pullsOf(job);
  const ways = [...new Set(lots.map((lot) => lot.colourwayId))];
  const finished = press.finished ?? {};
  return {
    pulls: pulls.map(({ face, ink }, i) => ({
      face,
      ink: ink.name,
      colours: Math.max(1, new Set(ways.map((way) => inkIn(job, ink, way).hex)).size),
      ...(printed[i] ? { printed: printed[i] } : {}),
    })),
    decks,
    times: { ...USUAL_TIMES, ...press.times },
    hours: hoursOf(job),
    firstWeekday: firstWeekdayOf(press),
    frames: press.frames ?? Math.max(1, pulls.length),
    dryingPlaces: press.dryingPlaces ?? 4,
    exposureUnits: press.exposureUnits ?? 1,
    people: press.people ?? 1,
    rack: press.rack ?? Math.max(1, decks),
    clearCoats: press.clearCoats ?? 2,
    finished,
    now: Math.max(0, ...Object.values(finished)),
  };
}
