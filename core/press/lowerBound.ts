import type { ScheduleInput, Task } from './task.ts';
import { nextAttended } from './workingHours.ts';

/** What no schedule beats: the longest chain within working hours, and each resource's work laid end to end. */
export function lowerBound(input: ScheduleInput, order: readonly number[]): number {
  const { tasks, capacity, calendar, now } = input;
  const index = new Map(tasks.map((t, i) => [t.id, i]));
  const earliest = new Float64Array(tasks.length);
  let bound = now;
  for (const i of order) {
    const task = tasks[i] as Task;
    if (task.finishedAt !== undefined) {
      earliest[i] = task.finishedAt;
      continue;
    }
    let t = Math.max(now, ...task.after.map((id) => earliest[index.get(id) as number] as number));
    if (task.attended) t = nextAttended(calendar, t, task.minutes) as number;
    earliest[i] = t + task.minutes;
    bound = Math.max(bound, earliest[i] as number);
  }
  const followers: number[][] = tasks.map(() => []);
  order.forEach((i) => {
    for (const id of (tasks[i] as Task).after) followers[index.get(id) as number]?.push(i);
  });
  const back = [...order].reverse();
  const at = new Int32Array(tasks.length);
  order.forEach((i, k) => {
    at[i] = k;
  });
  const ready = new Float64Array(tasks.length);
  /** When all that follows task `i` is done, if it ends at `t` and nothing else is in the way. */
  const after = (i: number, t: number): number => {
    let end = t;
    ready.fill(-1);
    const hand = (from: number, time: number) => {
      for (const j of followers[from] as number[])
        if ((tasks[j] as Task).finishedAt === undefined) ready[j] = Math.max(ready[j] as number, time);
    };
    hand(i, t);
    for (let k = (at[i] as number) + 1; k < order.length; k++) {
      const j = order[k] as number;
      const from = ready[j] as number;
      if (from < 0) continue;
      const task = tasks[j] as Task;
      const start = task.attended ? (nextAttended(calendar, from, task.minutes) as number) : from;
      end = Math.max(end, start + task.minutes);
      hand(j, start + task.minutes);
    }
    return end;
  };
  const tail = new Float64Array(tasks.length);
  for (const i of back)
    for (const id of (tasks[i] as Task).after) {
      const j = index.get(id) as number;
      tail[j] = Math.max(tail[j] as number, (tail[i] as number) + (tasks[i] as Task).minutes);
    }
  // Of a resource's tasks, those with long tails: their work laid end to end, then the shortest of their tails.
  for (const [name, n] of Object.entries(capacity)) {
    const mine = order
      .filter((i) => (tasks[i] as Task).needs[name] && (tasks[i] as Task).finishedAt === undefined)
      .sort((p, q) => (tail[q] as number) - (tail[p] as number));
    const attended = mine.every((i) => (tasks[i] as Task).attended);
    let first = Number.POSITIVE_INFINITY;
    let work = 0;
    mine.forEach((i, k) => {
      const task = tasks[i] as Task;
      first = Math.min(first, (earliest[i] as number) - task.minutes);
      work += (task.minutes * (task.needs[name] as number)) / n;
      const following = mine[k + 1];
      if (following !== undefined && tail[following] === tail[i]) return;
      const end = attended ? calendar.add(first, work) : first + work;
      let least = Number.POSITIVE_INFINITY;
      for (let m = 0; m <= k && least > bound; m++) least = Math.min(least, after(mine[m] as number, end));
      bound = Math.max(bound, least);
    });
  }
  return bound;
}
