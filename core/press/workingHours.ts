/** Minutes from midnight a person starts and stops, by weekday from Monday; null: a day off. */
export type WorkingHours = readonly (readonly [number, number] | null)[];

/** Working time laid out in minutes from midnight of day 0. */
export interface Calendar {
  readonly hours: WorkingHours;
  /** Weekday of day 0: 0 is Monday. */
  readonly firstWeekday: number;
  /** The minute at which `minutes` of working time after `from` are spent, work split over days as it falls. */
  add(from: number, minutes: number): number;
}

const DAY = 1440;

const dayHours = (hours: WorkingHours, firstWeekday: number, day: number) =>
  hours[(((firstWeekday + day) % 7) + 7) % 7] ?? null;

/** Evenings and weekends of a home shop; own choice. */
export const USUAL_HOURS: WorkingHours = [
  [18 * 60, 22 * 60],
  [18 * 60, 22 * 60],
  [18 * 60, 22 * 60],
  [18 * 60, 22 * 60],
  [18 * 60, 22 * 60],
  [9 * 60, 18 * 60],
  [10 * 60, 17 * 60],
];

/** A calendar, or null when no day has working time. */
export function makeCalendar(hours: WorkingHours, firstWeekday: number): Calendar | null {
  const open = hours.length === 7 && hours.some((h) => h && h[1] > h[0] && h[0] >= 0 && h[1] <= DAY);
  if (!open) return null;
  return {
    hours,
    firstWeekday,
    add(from, minutes) {
      let left = minutes;
      if (left <= 0) return from;
      for (let day = Math.floor(from / DAY); ; day++) {
        const today = dayHours(hours, firstWeekday, day);
        if (!today) continue;
        const start = Math.max(from, day * DAY + today[0]);
        const end = day * DAY + today[1];
        if (end <= start) continue;
        if (end - start >= left) return start + left;
        left -= end - start;
      }
    },
  };
}

/** The earliest minute from `from` at which `minutes` fit into one working day; null when no day is long enough. */
export function nextAttended(calendar: Calendar, from: number, minutes: number): number | null {
  const { hours, firstWeekday } = calendar;
  const first = Math.floor(from / DAY);
  for (let day = first; day <= first + 7; day++) {
    const today = dayHours(hours, firstWeekday, day);
    if (!today) continue;
    const start = Math.max(from, day * DAY + today[0]);
    if (start + minutes <= day * DAY + today[1] + 1e-9) return start;
  }
  return null;
}

/** Minutes in the longest working day. */
export const longestDay = (hours: WorkingHours): number =>
  hours.reduce((most, h) => Math.max(most, h ? h[1] - h[0] : 0), 0);
