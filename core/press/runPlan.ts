import { planTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { type Schedule, schedule } from './schedule.ts';
import type { Task } from './task.ts';
import { longestDay, makeCalendar, type WorkingHours } from './workingHours.ts';

/** Minutes each task takes; the user's own, remembered. */
export interface TaskTimes {
  /** Print a film's sheets, cut and join them. */
  readonly film: number;
  readonly coat: number;
  readonly coatDry: number;
  readonly expose: number;
  readonly wash: number;
  readonly screenDry: number;
  /** Tape the screen, register it and print tests. */
  readonly setUp: number;
  /** One deck on, printed and off. */
  readonly pull: number;
  readonly inkDry: number;
  /** Swap the ink of a screen for another colourway's. */
  readonly inkSwap: number;
  readonly clean: number;
  /** Take the stencil out, to use the frame again. */
  readonly strip: number;
  readonly clearCoat: number;
  readonly clearDry: number;
}

/** Common practice, no source: time your own. */
export const USUAL_TIMES: TaskTimes = {
  film: 30,
  coat: 10,
  coatDry: 120,
  expose: 10,
  wash: 15,
  screenDry: 60,
  setUp: 40,
  pull: 2,
  inkDry: 60,
  inkSwap: 15,
  clean: 20,
  strip: 20,
  clearCoat: 2,
  clearDry: 240,
};

export interface RunPlanInput {
  /** In print order: the first face's pulls, then the second's. */
  readonly pulls: readonly {
    readonly face: 'bottom' | 'top';
    readonly ink: string;
    /** Inks this screen is printed with over all colourways; 1 when none changes it. */
    readonly colours: number;
    /** Decks that already have it; left out: none. */
    readonly printed?: number;
  }[];
  /** Blanks that go through the press. */
  readonly decks: number;
  readonly times: TaskTimes;
  readonly hours: WorkingHours;
  /** Weekday of day 0: 0 is Monday. */
  readonly firstWeekday: number;
  readonly frames: number;
  readonly dryingPlaces: number;
  readonly exposureUnits: number;
  readonly people: number;
  /** Decks the rack holds. */
  readonly rack: number;
  readonly clearCoats: number;
  /** Minutes since day 0's midnight at which tasks were finished, by id. */
  readonly finished: Readonly<Record<string, number>>;
  /** Plan from here. */
  readonly now: number;
}

export type Work = 'film' | 'screen' | 'press' | 'drying' | 'coat';

export interface PlannedTask extends Task {
  readonly work: Work;
  /** Index into `pulls`; null for clear coats. */
  readonly pull: number | null;
  /** The bar's row in a chart: the screen, or the coats. */
  readonly row: string;
}

export interface RunPlan extends Schedule {
  readonly tasks: readonly PlannedTask[];
  /** Decks that go through together. */
  readonly batches: readonly number[];
}

const PEOPLE = 'people';
const FRAME_DRYING = 'drying places';
const EXPOSURE = 'exposure units';
const PRESS = 'presses';
const RACK = 'rack places';

/** Decks in lots as even as can be, none over `most`. */
function batchesOf(decks: number, most: number): number[] {
  const count = Math.ceil(decks / most);
  return Array.from({ length: count }, (_, i) => Math.floor(decks / count) + (i < decks % count ? 1 : 0));
}

/** All tasks of a run, in working order. */
export function runTasks(input: RunPlanInput): { tasks: PlannedTask[]; batches: number[] } {
  const { pulls, decks, times, frames, clearCoats, hours } = input;
  const slowest = Math.max(times.pull, clearCoats > 0 ? times.clearCoat : 0);
  const inOneGo = slowest > 0 ? Math.max(1, Math.floor(longestDay(hours) / slowest)) : decks;
  const batches = decks > 0 ? batchesOf(decks, Math.max(1, Math.min(input.rack, inOneGo))) : [];
  const tasks: PlannedTask[] = [];
  const put = (
    id: string,
    name: string,
    work: Work,
    pull: number | null,
    minutes: number,
    after: readonly string[],
    needs: Readonly<Record<string, number>>,
  ) => {
    const attended = PEOPLE in needs;
    const row = pull === null ? 'Clear coats' : `${pulls[pull]?.face} ${pulls[pull]?.ink}`;
    const finishedAt = input.finished[id];
    tasks.push({
      id,
      name,
      work,
      pull,
      row,
      minutes,
      after,
      needs,
      attended,
      ...(finishedAt === undefined ? {} : { finishedAt }),
    });
    return id;
  };
  const one = { [PEOPLE]: 1 };
  let dried: string[] = batches.map(() => '');
  let cleaned = '';
  const some = (...ids: string[]) => ids.filter((id) => id !== '');
  pulls.forEach(({ face, ink, colours, printed: already = 0 }, i) => {
    const n = i + 1;
    const name = (what: string) => `${what}: ${ink} (${face})`;
    // A frame comes back when the screen that had it is stripped: screens take frames in print order.
    const frame = i >= frames ? `strip-${n - frames}` : '';
    const film = put(`film-${n}`, name('film'), 'film', i, times.film, [], one);
    const coat = put(`coat-${n}`, name('coat'), 'screen', i, times.coat, some(frame), one);
    const dry = put(`coat-dry-${n}`, name('emulsion dries'), 'drying', i, times.coatDry, [coat], {
      [FRAME_DRYING]: 1,
    });
    const burn = put(`expose-${n}`, name('expose'), 'screen', i, times.expose, [dry, film], {
      ...one,
      [EXPOSURE]: 1,
    });
    const wash = put(`wash-${n}`, name('wash out'), 'screen', i, times.wash, [burn], one);
    const ready = put(`screen-dry-${n}`, name('screen dries'), 'drying', i, times.screenDry, [wash], {
      [FRAME_DRYING]: 1,
    });
    const setUp = put(
      `set-up-${n}`,
      name('tape, register, test'),
      'press',
      i,
      times.setUp,
      some(ready, cleaned),
      { ...one, [PRESS]: 1 },
    );
    const printed: string[] = [];
    let before = setUp;
    let have = already;
    batches.forEach((size, b) => {
      const lot = batches.length > 1 ? `, lot ${b + 1}` : '';
      const there = Math.min(size, have);
      have -= there;
      const left = size - there;
      // Each colourway's ink is swapped in once a lot.
      const minutes = left === 0 ? 0 : left * times.pull + (colours - 1) * times.inkSwap;
      before = put(
        `pull-${n}-${b + 1}`,
        name(`print ${there === 0 || left === 0 ? size : `the last ${left} of ${size}`} decks${lot}`),
        'press',
        i,
        minutes,
        some(before, dried[b] ?? ''),
        { ...one, [PRESS]: 1 },
      );
      printed.push(before);
    });
    dried = batches.map((size, b) =>
      put(`ink-dry-${n}-${b + 1}`, name('ink dries'), 'drying', i, times.inkDry, [printed[b] as string], {
        [RACK]: size,
      }),
    );
    cleaned = put(`clean-${n}`, name('clean'), 'screen', i, times.clean, [before], one);
    if (i + frames < pulls.length)
      put(`strip-${n}`, name('strip the stencil'), 'screen', i, times.strip, [cleaned], one);
  });
  for (let c = 1; c <= clearCoats; c++)
    dried = batches.map((size, b) => {
      const coat = put(
        `clear-${c}-${b + 1}`,
        `clear coat ${c} on ${size} decks`,
        'coat',
        null,
        size * times.clearCoat,
        some(dried[b] ?? ''),
        one,
      );
      return put(`clear-dry-${c}-${b + 1}`, `clear coat ${c} dries`, 'drying', null, times.clearDry, [coat], {
        [RACK]: size,
      });
    });
  return { tasks, batches };
}

/** The run as a schedule over days: every task with its time, within resources and working hours. */
export function planRun(input: RunPlanInput): Outcome<Calculation<RunPlan>> {
  const whole = (least: number, most: number) => ({ least, most, unit: '', whole: true });
  const bad = outOfBounds({
    'number of decks': [input.decks, whole(0, 10_000)],
    'number of frames': [input.frames, whole(1, 200)],
    'number of drying places': [input.dryingPlaces, whole(1, 200)],
    'number of exposure units': [input.exposureUnits, whole(1, 20)],
    'number of people': [input.people, whole(1, 20)],
    'number of rack places': [input.rack, whole(1, 10_000)],
    'number of clear coats': [input.clearCoats, whole(0, 20)],
    'first weekday': [input.firstWeekday, whole(0, 6)],
    'number of pulls': [input.pulls.length, whole(0, 48)],
    ...Object.fromEntries(
      Object.entries(input.times).map(([name, minutes]) => [
        `time for ${name}`,
        [minutes, { least: 0, most: 20_000, unit: 'minutes' }] as const,
      ]),
    ),
  });
  if (bad) return bad;
  const calendar = makeCalendar(input.hours, input.firstWeekday);
  if (!calendar) return planTrouble.noHours();
  const { tasks, batches } = runTasks(input);
  const worked = schedule({
    tasks,
    calendar,
    now: input.now,
    capacity: {
      [PEOPLE]: input.people,
      [FRAME_DRYING]: input.dryingPlaces,
      [EXPOSURE]: input.exposureUnits,
      [PRESS]: 1,
      [RACK]: input.rack,
    },
  });
  if (!worked.ok) return worked;
  const { result, formula, assumptions } = worked.value;
  return done({
    result: { ...result, tasks, batches },
    formula,
    assumptions: [
      ...assumptions,
      'One press; screens take frames in print order; the bottom is printed before the top.',
      'Decks that are dry are stacked and take no rack place.',
    ],
  });
}
