import { planTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import type { Calculation } from './calculation.ts';
import { lowerBound } from './lowerBound.ts';
import { ordered, type Placed, refuse, type ScheduleInput, type Task } from './task.ts';
import { nextAttended } from './workingHours.ts';

export interface Schedule {
  readonly placed: readonly Placed[];
  /** Minute at which all is done. */
  readonly end: number;
  /** No schedule can end before this minute. */
  readonly atLeast: number;
}

/**
 * Tasks one after another in the order of their priorities, each as early as what it waits for, the resources and the
 * working hours allow (serial schedule generation: J. E. Kelley, 1963). `priority` by task, smaller first.
 */
function build(input: ScheduleInput, order: readonly number[], priority: Float64Array): Placed[] {
  const { tasks, capacity, calendar, now } = input;
  const index = new Map(tasks.map((t, i) => [t.id, i]));
  const placed: (Placed | null)[] = tasks.map(() => null);
  const used = new Map(
    Object.keys(capacity).map((name) => [name, [] as { start: number; end: number; n: number }[]]),
  );
  const waiting = new Set(order);
  for (const i of order) {
    const task = tasks[i] as Task;
    if (task.finishedAt === undefined) continue;
    placed[i] = { id: task.id, start: task.finishedAt - task.minutes, end: task.finishedAt };
    waiting.delete(i);
  }
  /** Earliest minute from `t` at which the resource has room for the whole stretch, or `t` itself. */
  const clash = (task: Task, t: number): number | null => {
    for (const [name, n] of Object.entries(task.needs)) {
      const busy = (used.get(name) as { start: number; end: number; n: number }[]).filter(
        (b) => b.start < t + task.minutes && b.end > t,
      );
      for (const at of [t, ...busy.map((b) => b.start)]) {
        if (at < t) continue;
        const over = busy.filter((b) => b.start <= at && b.end > at);
        if (over.reduce((sum, b) => sum + b.n, 0) + n > (capacity[name] as number))
          return Math.min(...over.map((b) => b.end));
      }
    }
    return null;
  };
  while (waiting.size > 0) {
    let next = -1;
    for (const i of waiting) {
      const free = (tasks[i] as Task).after.every((id) => placed[index.get(id) as number] !== null);
      if (free && (next < 0 || (priority[i] as number) < (priority[next] as number))) next = i;
    }
    const task = tasks[next] as Task;
    let t = Math.max(now, ...task.after.map((id) => (placed[index.get(id) as number] as Placed).end));
    for (;;) {
      if (task.attended) t = nextAttended(calendar, t, task.minutes) as number;
      const until = task.minutes === 0 ? null : clash(task, t);
      if (until === null) break;
      t = until;
    }
    placed[next] = { id: task.id, start: t, end: t + task.minutes };
    for (const [name, n] of Object.entries(task.needs))
      used.get(name)?.push({ start: t, end: t + task.minutes, n });
    waiting.delete(next);
  }
  return placed as Placed[];
}

const endOf = (placed: readonly Placed[]): number => placed.reduce((end, p) => Math.max(end, p.end), 0);

/** Steps of the search for a better order; each builds one schedule. */
const TRIES = 400;

/**
 * A feasible schedule close to the shortest: list scheduling by several priority rules, then exchanges of priorities
 * that do not lengthen it, from a fixed seed. Tasks already finished stay where they were.
 */
export function schedule(input: ScheduleInput, tries: number = TRIES): Outcome<Calculation<Schedule>> {
  const bad = refuse(input);
  if (bad) return bad;
  const { tasks } = input;
  const sorted = ordered(tasks);
  if ('circle' in sorted) return planTrouble.circle(sorted.circle);
  const { order } = sorted;
  const index = new Map(tasks.map((t, i) => [t.id, i]));
  const tail = new Float64Array(tasks.length);
  const followers = new Float64Array(tasks.length);
  for (const i of [...order].reverse()) {
    const task = tasks[i] as Task;
    tail[i] = (tail[i] as number) + task.minutes;
    for (const id of task.after) {
      const j = index.get(id) as number;
      tail[j] = Math.max(tail[j] as number, tail[i] as number);
      followers[j] = (followers[j] as number) + 1 + (followers[i] as number);
    }
  }
  const rules = [
    Float64Array.from(tasks, (_, i) => i),
    Float64Array.from(tail, (t) => -t),
    Float64Array.from(followers, (f) => -f),
    Float64Array.from(tasks, (t) => t.minutes),
  ];
  const atLeast = lowerBound(input, order);
  let best: Placed[] | null = null;
  let bestEnd = Number.POSITIVE_INFINITY;
  let priority = rules[0] as Float64Array;
  for (const rule of rules) {
    const placed = build(input, order, rule);
    if (endOf(placed) < bestEnd) {
      best = placed;
      bestEnd = endOf(placed);
      priority = rule;
    }
  }
  let seed = 0x2545f491;
  const random = (n: number) => {
    seed ^= seed << 13;
    seed ^= seed >>> 17;
    seed ^= seed << 5;
    return (seed >>> 0) % n;
  };
  const rank = Float64Array.from(tasks, () => 0);
  [...tasks.keys()]
    .sort((a, b) => (priority[a] as number) - (priority[b] as number))
    .forEach((task, at) => {
      rank[task] = at;
    });
  for (let k = 0; k < tries && bestEnd > atLeast + 1e-9 && tasks.length > 1; k++) {
    const [a, b] = [random(tasks.length), random(tasks.length)];
    const before = [rank[a] as number, rank[b] as number] as const;
    [rank[a], rank[b]] = [before[1], before[0]];
    const placed = build(input, order, rank);
    const end = endOf(placed);
    if (end <= bestEnd) {
      // Plans as long are walked through, but the first of them stays: it is the nearest to the working order.
      if (end < bestEnd) best = placed;
      bestEnd = end;
    } else [rank[a], rank[b]] = before;
  }
  return done({
    result: { placed: best as Placed[], end: tasks.length === 0 ? input.now : bestEnd, atLeast },
    formula:
      'serial list scheduling by priority, improved by exchanges; bound = longest chain, and work of each resource over its number',
    assumptions: [
      'Work that needs a person lies within one working day, in one piece; drying goes on by itself.',
      'Times are your own; until you enter them they are common practice, no source.',
    ],
  });
}
