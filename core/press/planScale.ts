import type { Calendar } from './workingHours.ts';

/** What a minute outside working hours counts for against one inside: nights are narrow, but drying is still seen. */
const IDLE = 0.12;
const DAY = 1440;

export const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

export interface PlanDay {
  readonly day: number;
  readonly name: string;
  /** Places of its midnight, its working hours' start and end, and the next midnight, 0 to 1. */
  readonly from: number;
  readonly work: readonly [number, number] | null;
  readonly to: number;
}

/** A time axis for a bar chart from day 0's midnight to the end of the last day: minutes to 0 … 1, nights drawn in. */
export function planScale(
  calendar: Calendar,
  end: number,
): { at(minute: number): number; readonly days: readonly PlanDay[] } {
  const count = Math.max(1, Math.ceil(end / DAY - 1e-9));
  const hoursOf = (day: number) => calendar.hours[(calendar.firstWeekday + day) % 7] ?? null;
  const weight = (day: number, minute: number): number => {
    const hours = hoursOf(day);
    const inside = hours ? Math.max(0, Math.min(minute, hours[1]) - hours[0]) : 0;
    return inside + (minute - inside) * IDLE;
  };
  const starts = [0];
  for (let day = 0; day < count; day++) starts.push((starts[day] as number) + weight(day, DAY));
  const total = starts[count] as number;
  const at = (minute: number): number => {
    const day = Math.max(0, Math.min(count - 1, Math.floor(minute / DAY)));
    const within = Math.max(0, Math.min(DAY, minute - day * DAY));
    return ((starts[day] as number) + weight(day, within)) / total;
  };
  const days = Array.from({ length: count }, (_, day): PlanDay => {
    const hours = hoursOf(day);
    const base = day * DAY;
    return {
      day,
      name: WEEKDAYS[(calendar.firstWeekday + day) % 7] as string,
      from: (starts[day] as number) / total,
      work: hours ? [at(base + hours[0]), at(base + hours[1])] : null,
      to: (starts[day + 1] as number) / total,
    };
  });
  return { at, days };
}

/** `18:30`. */
export const clockOf = (minute: number): string => {
  const m = Math.round(minute) % DAY;
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(m / 60))}:${two(m % 60)}`;
};
