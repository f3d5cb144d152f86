import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  makeCalendar,
  planRun,
  type RunPlanInput,
  type ScheduleInput,
  schedule,
  type Task,
  USUAL_HOURS,
  USUAL_TIMES,
  type WorkingHours,
} from '../../../core/press/index.ts';

const ALWAYS: WorkingHours = Array.from({ length: 7 }, () => [0, 1440] as const);
const calendar = (hours: WorkingHours) => {
  const made = makeCalendar(hours, 0);
  if (!made) throw new Error('no hours');
  return made;
};
const got = <T>(o: { ok: true; value: { result: T } } | { ok: false; reason: string }): T => {
  if (!o.ok) throw new Error(o.reason);
  return o.value.result;
};

/** Every rule a schedule must keep, minute by minute: order, resources, working hours. */
function broken(
  input: ScheduleInput,
  placed: readonly { id: string; start: number; end: number }[],
): string[] {
  const at = new Map(placed.map((p) => [p.id, p]));
  const faults: string[] = [];
  for (const task of input.tasks) {
    const p = at.get(task.id);
    if (!p) {
      faults.push(`${task.id} is missing`);
      continue;
    }
    if (Math.abs(p.end - p.start - task.minutes) > 1e-6) faults.push(`${task.id} has another length`);
    if (task.finishedAt !== undefined) continue;
    if (p.start < input.now - 1e-6) faults.push(`${task.id} starts in the past`);
    for (const id of task.after)
      if ((at.get(id)?.end ?? Infinity) > p.start + 1e-6) faults.push(`${task.id} before ${id}`);
    if (task.attended) {
      const day = Math.floor(p.start / 1440);
      const hours = input.calendar.hours[(input.calendar.firstWeekday + day) % 7];
      if (!hours || p.start < day * 1440 + hours[0] - 1e-6 || p.end > day * 1440 + hours[1] + 1e-6)
        faults.push(`${task.id} outside working hours`);
    }
  }
  for (const [name, n] of Object.entries(input.capacity))
    for (const { start } of placed) {
      const busy = input.tasks.filter((t) => {
        const p = at.get(t.id)!;
        return t.finishedAt === undefined && p.start <= start + 1e-9 && p.end > start + 1e-9;
      });
      if (busy.reduce((sum, t) => sum + (t.needs[name] ?? 0), 0) > n)
        faults.push(`${name} over ${n} at ${start}`);
    }
  return faults;
}

/** The shortest end by trying every whole minute for every task: slow, and nothing like list scheduling. */
function exhaustive(input: ScheduleInput, horizon: number): number {
  const { tasks, capacity } = input;
  let best = horizon + 1;
  const starts: number[] = [];
  const fits = (i: number, start: number): boolean => {
    const task = tasks[i]!;
    for (let j = 0; j < i; j++) {
      const other = tasks[j]!;
      const end = starts[j]! + other.minutes;
      if (task.after.includes(other.id) && start < end) return false;
      if (other.after.includes(task.id) && starts[j]! < start + task.minutes) return false;
    }
    for (const [name, n] of Object.entries(capacity))
      for (let t = start; t < start + task.minutes; t++) {
        let used = task.needs[name] ?? 0;
        for (let j = 0; j < i; j++)
          if (starts[j]! <= t && t < starts[j]! + tasks[j]!.minutes) used += tasks[j]!.needs[name] ?? 0;
        if (used > n) return false;
      }
    if (!task.attended) return true;
    const day = input.calendar.hours[Math.floor(start / 1440) % 7];
    return day != null && start >= day[0] && start + task.minutes <= day[1];
  };
  const go = (i: number, end: number): void => {
    if (end >= best) return;
    if (i === tasks.length) {
      best = end;
      return;
    }
    for (let start = 0; start + tasks[i]!.minutes < best; start++) {
      if (!fits(i, start)) continue;
      starts[i] = start;
      go(i + 1, Math.max(end, start + tasks[i]!.minutes));
    }
  };
  go(0, 0);
  return best;
}

const small = fc
  .array(
    fc.record({
      minutes: fc.integer({ min: 1, max: 4 }),
      after: fc.array(fc.nat({ max: 4 }), { maxLength: 2 }),
      press: fc.integer({ min: 0, max: 1 }),
      people: fc.integer({ min: 0, max: 2 }),
    }),
    { minLength: 2, maxLength: 5 },
  )
  .map((list): Task[] =>
    list.map(({ minutes, after, press, people }, i) => ({
      id: `t${i}`,
      name: `task ${i}`,
      minutes,
      after: [...new Set(after.filter((a) => a < i))].map((a) => `t${a}`),
      needs: { ...(press ? { press } : {}), ...(people ? { people } : {}) },
      attended: people > 0,
    })),
  );

test('small plans are the shortest there are, by trying every minute, seed 21', () => {
  fc.assert(
    fc.property(small, (tasks) => {
      const input = { tasks, capacity: { press: 1, people: 2 }, calendar: calendar(ALWAYS), now: 0 };
      const { placed, end, atLeast } = got(schedule(input));
      expect(broken(input, placed)).toEqual([]);
      const shortest = exhaustive(input, 30);
      expect(end).toBe(shortest);
      expect(atLeast).toBeLessThanOrEqual(shortest + 1e-9);
    }),
    { seed: 21, numRuns: 150 },
  );
});

test('and within short working hours as well, seed 22', () => {
  const hours: WorkingHours = ALWAYS.map(() => [3, 9] as const);
  fc.assert(
    fc.property(small, (tasks) => {
      const input = {
        tasks: tasks.slice(0, 4),
        capacity: { press: 1, people: 2 },
        calendar: calendar(hours),
        now: 0,
      };
      const { placed, end, atLeast } = got(schedule(input));
      expect(broken(input, placed)).toEqual([]);
      // Only plans that end on the first day are searched minute by minute.
      const shortest = exhaustive(input, 22);
      if (shortest <= 22) expect(end).toBe(shortest);
      expect(atLeast).toBeLessThanOrEqual(end + 1e-9);
    }),
    { seed: 22, numRuns: 100 },
  );
});

const RUN: RunPlanInput = {
  pulls: [
    { face: 'bottom', ink: 'white', colours: 1 },
    { face: 'bottom', ink: 'coral', colours: 2 },
    { face: 'bottom', ink: 'key', colours: 1 },
    { face: 'top', ink: 'key', colours: 1 },
  ],
  decks: 24,
  times: USUAL_TIMES,
  hours: USUAL_HOURS,
  firstWeekday: 5,
  frames: 4,
  dryingPlaces: 4,
  exposureUnits: 1,
  people: 1,
  rack: 24,
  clearCoats: 2,
  finished: {},
  now: 0,
};

const CAPACITY = (run: RunPlanInput) => ({
  people: run.people,
  'drying places': run.dryingPlaces,
  'exposure units': run.exposureUnits,
  presses: 1,
  'rack places': run.rack,
});

describe('a run', () => {
  test('keeps every order, resource and working hour for any shop, seed 23', () => {
    fc.assert(
      fc.property(
        fc.record({
          decks: fc.integer({ min: 0, max: 60 }),
          frames: fc.integer({ min: 1, max: 5 }),
          dryingPlaces: fc.integer({ min: 1, max: 4 }),
          people: fc.integer({ min: 1, max: 3 }),
          rack: fc.integer({ min: 3, max: 40 }),
          clearCoats: fc.integer({ min: 0, max: 2 }),
          firstWeekday: fc.integer({ min: 0, max: 6 }),
        }),
        (shop) => {
          const run = { ...RUN, ...shop };
          const plan = got(planRun(run));
          const made = makeCalendar(run.hours, run.firstWeekday);
          if (!made) throw new Error('no hours');
          expect(
            broken({ tasks: plan.tasks, capacity: CAPACITY(run), calendar: made, now: 0 }, plan.placed),
          ).toEqual([]);
          expect(plan.atLeast).toBeLessThanOrEqual(plan.end + 1e-6);
          expect(plan.batches.reduce((a, b) => a + b, 0)).toBe(run.decks);
          // A frame is on one screen at a time: between coating and stripping or the end.
          const at = new Map(plan.placed.map((p) => [p.id, p]));
          const spans = run.pulls.map((_, i) => [
            at.get(`coat-${i + 1}`)!.start,
            at.get(`strip-${i + 1}`)?.end ?? Number.POSITIVE_INFINITY,
          ]);
          for (const [start] of spans)
            expect(spans.filter(([a, b]) => a! <= start! && b! > start!).length).toBeLessThanOrEqual(
              run.frames,
            );
        },
      ),
      { seed: 23, numRuns: 25 },
    );
  }, 60_000);

  test('is proven the shortest for the usual shop', () => {
    const plan = got(planRun(RUN));
    expect(plan.end).toBeCloseTo(plan.atLeast, 6);
  });

  test('re-planned from what is done: that stays, and nothing new starts before now', () => {
    const first = got(planRun(RUN));
    const now = 600 + 5 * 60;
    const finished = Object.fromEntries(
      first.placed.filter((p) => p.end <= now).map((p) => [p.id, p.end + 7]),
    );
    expect(Object.keys(finished).length).toBeGreaterThan(3);
    const again = got(planRun({ ...RUN, finished, now }));
    for (const p of again.placed) {
      if (p.id in finished) expect(p.end).toBe(finished[p.id]);
      else expect(p.start).toBeGreaterThanOrEqual(now);
    }
  });

  test('no working day, or a screen that takes longer than any, is refused', () => {
    expect(planRun({ ...RUN, hours: RUN.hours.map(() => null) }).ok).toBe(false);
    expect(planRun({ ...RUN, times: { ...USUAL_TIMES, setUp: 5000 } })).toMatchObject({ ok: false });
  });
});

test('a circle of tasks is refused, not looped', () => {
  const tasks = ['a', 'b'].map((id, i) => ({
    id,
    name: id,
    minutes: 1,
    after: [['b', 'a'][i]!],
    needs: {},
    attended: false,
  }));
  expect(schedule({ tasks, capacity: {}, calendar: calendar(ALWAYS), now: 0 })).toMatchObject({ ok: false });
});
