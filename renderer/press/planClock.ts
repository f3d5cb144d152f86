const DAY_MS = 86_400_000;

const midnight = (date: string): Date => {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  return new Date(year, month - 1, day);
};

/** `28 Nov`: day `n` of a run that begins on `startDate`, in the user's own way of writing dates. */
export function dayOf(startDate: string, n: number): string {
  const from = midnight(startDate);
  const day = new Date(from.getFullYear(), from.getMonth(), from.getDate() + n);
  return day.toLocaleDateString(undefined, { day: 'numeric', month: 'short' });
}

/**
 * This minute, counted from the midnight a run began, as the plan counts: whole days by the calendar, then the clock's own
 * time of day. Null when the run has no date, or this is not within a year after it.
 */
export function minuteNow(startDate: string | undefined, now: Date = new Date()): number | null {
  if (startDate === undefined) return null;
  const today = new Date(now.getFullYear(), now.getMonth(), now.getDate());
  // Days are counted by their middles: a day of a change of clocks is an hour longer or shorter.
  const days = Math.round((today.getTime() - midnight(startDate).getTime()) / DAY_MS);
  return days < 0 || days > 366 ? null : days * 1440 + now.getHours() * 60 + now.getMinutes();
}
