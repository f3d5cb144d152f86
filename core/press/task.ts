import { planTrouble } from '../sentences/index.ts';
import { type Calendar, nextAttended } from './workingHours.ts';

/** One thing to do. Times in minutes since the first day's midnight. */
export interface Task {
  readonly id: string;
  readonly name: string;
  readonly minutes: number;
  /** Ids that must be finished first. */
  readonly after: readonly string[];
  /** How many of each resource it takes while it lasts. */
  readonly needs: Readonly<Record<string, number>>;
  /** A person must be there, so it lies within working hours, in one piece. Drying does not need one. */
  readonly attended: boolean;
  /** Already finished, at this minute. */
  readonly finishedAt?: number;
}

export interface Placed {
  readonly id: string;
  readonly start: number;
  readonly end: number;
}

export interface ScheduleInput {
  readonly tasks: readonly Task[];
  readonly capacity: Readonly<Record<string, number>>;
  readonly calendar: Calendar;
  /** Nothing new starts before this minute. */
  readonly now: number;
}

/** The tasks in an order in which each comes after what it waits for, or the id at which they run in a circle. */
export function ordered(tasks: readonly Task[]): { order: number[] } | { circle: string } {
  const index = new Map(tasks.map((t, i) => [t.id, i]));
  const state = new Int8Array(tasks.length);
  const order: number[] = [];
  const visit = (i: number): string | null => {
    if (state[i] === 2) return null;
    const task = tasks[i] as Task;
    if (state[i] === 1) return task.id;
    state[i] = 1;
    for (const id of task.after) {
      const circle = visit(index.get(id) as number);
      if (circle !== null) return circle;
    }
    state[i] = 2;
    order.push(i);
    return null;
  };
  for (let i = 0; i < tasks.length; i++) {
    const circle = visit(i);
    if (circle !== null) return { circle };
  }
  return { order };
}

/** Why tasks can not be planned, or null. */
export function refuse({ tasks, capacity, calendar }: ScheduleInput) {
  const ids = new Set(tasks.map((t) => t.id));
  if (ids.size !== tasks.length) return planTrouble.sameId();
  for (const task of tasks) {
    if (!(task.minutes >= 0 && Number.isFinite(task.minutes))) return planTrouble.noLength(task.name);
    for (const id of task.after) if (!ids.has(id)) return planTrouble.waitsForMissing(task.name, id);
    for (const [name, n] of Object.entries(task.needs))
      if (n > (capacity[name] ?? 0)) return planTrouble.tooFew(task.name, n, name, capacity[name] ?? 0);
    if (task.attended && task.finishedAt === undefined && nextAttended(calendar, 0, task.minutes) === null)
      return planTrouble.longerThanDay(task.name, Math.round(task.minutes));
  }
  return null;
}
