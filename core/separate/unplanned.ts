import { toHex } from '../colour/index.ts';

/** Bins of a colour for the report: 4 bits a channel. */
const BINS = 1 << 12;

/** Flat colours of the art that no ink is near, counted while separating; one collector serves all windows of a picture. */
export interface UnplannedTally {
  readonly counts: Float64Array;
  readonly red: Float64Array;
  readonly green: Float64Array;
  readonly blue: Float64Array;
  /** Points seen, of any colour. */
  seen: number;
}

/** A colour that no ink is near, and its share of all points seen. */
export interface Unplanned {
  readonly hex: string;
  readonly share: number;
}

export const unplannedTally = (): UnplannedTally => ({
  counts: new Float64Array(BINS),
  red: new Float64Array(BINS),
  green: new Float64Array(BINS),
  blue: new Float64Array(BINS),
  seen: 0,
});

export function tallyColour(tally: UnplannedTally, r: number, g: number, b: number): void {
  const bin = ((r >> 4) << 8) | ((g >> 4) << 4) | (b >> 4);
  tally.counts[bin]! += 1;
  tally.red[bin]! += r;
  tally.green[bin]! += g;
  tally.blue[bin]! += b;
}

/** Adds what another thread counted. */
export function addTally(to: UnplannedTally, from: UnplannedTally): void {
  for (let i = 0; i < BINS; i++) {
    to.counts[i]! += from.counts[i]!;
    to.red[i]! += from.red[i]!;
    to.green[i]! += from.green[i]!;
    to.blue[i]! += from.blue[i]!;
  }
  to.seen += from.seen;
}

/** The unplanned colours that cover at least `leastShare` of the points, the largest first. */
export function unplannedOf(tally: UnplannedTally, leastShare = 0.0005): Unplanned[] {
  const found: Unplanned[] = [];
  for (let i = 0; i < BINS; i++) {
    const n = tally.counts[i]!;
    if (n === 0 || n < leastShare * tally.seen) continue;
    found.push({
      hex: toHex([tally.red[i]! / n, tally.green[i]! / n, tally.blue[i]! / n]),
      share: n / tally.seen,
    });
  }
  return found.sort((a, b) => b.share - a.share || (a.hex < b.hex ? -1 : 1));
}
