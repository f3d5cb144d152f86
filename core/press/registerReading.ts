import type { Mm } from '../units/index.ts';

/**
 * What the verniers say at one mark of a test print: how far the later pull lies from the first, mm, as the face is seen,
 * nose to the right. A mark that has only one scale gives only one of the two.
 */
export interface RegisterReading {
  /** mm on the face, mark's place from mid-wheelbase: along to the nose, across up as seen. */
  readonly x: Mm;
  readonly y: Mm;
  /** Too far to the nose is positive. */
  readonly along?: Mm;
  /** Too far up as seen is positive. */
  readonly across?: Mm;
}

/** A mark's readings taken together. */
export interface MarkMean extends RegisterReading {
  readonly count: number;
  /** mm, largest difference from the mean among repeats. */
  readonly scatter: Mm;
}

/** Marks nearer than this are one mark read again. */
const SAME = 1;

const mean = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length;

/** Repeated readings of a mark averaged, in the order in which the marks first came. */
export function meanReadings(readings: readonly RegisterReading[]): MarkMean[] {
  const groups: RegisterReading[][] = [];
  for (const reading of readings) {
    const group = groups.find(
      ([first]) => first && Math.hypot(first.x - reading.x, first.y - reading.y) <= SAME,
    );
    if (group) group.push(reading);
    else groups.push([reading]);
  }
  return groups.map((group) => {
    const along = group.flatMap((r) => (r.along === undefined ? [] : [r.along]));
    const across = group.flatMap((r) => (r.across === undefined ? [] : [r.across]));
    const off = (list: readonly number[]) =>
      list.length === 0 ? 0 : Math.max(...list.map((v) => Math.abs(v - mean(list))));
    const first = group[0] as RegisterReading;
    return {
      x: first.x,
      y: first.y,
      ...(along.length > 0 ? { along: mean(along) } : {}),
      ...(across.length > 0 ? { across: mean(across) } : {}),
      count: group.length,
      scatter: Math.max(off(along), off(across)),
    };
  });
}
