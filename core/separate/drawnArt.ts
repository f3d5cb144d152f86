import { LINEAR_OF_BYTE } from '../colour/index.ts';
import { type ArtTables, solveArt } from '../raster/index.ts';
import { DRAWN_ART, softTablesOf } from './edge.ts';
import type { Labels } from './labels.ts';
import type { SharedPoints } from './softPoints.ts';
import type { UnplannedTally } from './unplanned.ts';
import type { Workspace } from './workspace.ts';

/** A window of drawn art, separated. */
export interface DrawnArt extends SharedPoints {
  readonly winners: Uint8Array;
  /** Points without a sure core in what was found pure; only where they were asked for. */
  readonly soft: Int32Array;
}

/** Points without a sure core, and of shared ones, that room is made for at first: a share of all. */
const SOFT_SHARE = 1 / 16;

/**
 * All that `separateSparse` does for drawn art until thin lines are looked at more closely, in one go by the kernels; null where they are not there.
 * What is returned lies in `space`.
 */
export function separateDrawn(
  words: Int32Array,
  width: number,
  height: number,
  labels: Labels,
  curve: Float64Array | null,
  planeCount: number,
  tally: UnplannedTally | undefined,
  softToo: boolean,
  space: Workspace,
): DrawnArt | null {
  const winners = space.bytes('winners', width * height);
  const room = Math.max(1024, Math.ceil(words.length * SOFT_SHARE));
  const shared = new GrowingList((length) => space.words('shared', length), room);
  const shares = new GrowingList((length) => space.bytes('shares', length), room * planeCount);
  const soft = new GrowingList((length) => space.words('soft', length), softToo ? room : 0);
  const done = solveArt(
    words,
    width,
    height,
    artTables(labels, curve),
    planeCount,
    tally ? [tally.counts, tally.red, tally.green, tally.blue] : null,
    {
      winners: (from, some) => winners.set(some, from * width),
      shared: (places, some) => {
        shared.add(places);
        shares.add(some);
      },
      soft: (places) => {
        if (softToo) soft.add(places);
      },
    },
  );
  if (!done) return null;
  if (tally) tally.seen += words.length;
  return {
    winners,
    shared: shared.all(),
    shares: shares.all(),
    soft: soft.all(),
  };
}

/** A list of numbers that finds more room as it grows. */
class GrowingList<List extends Int32Array | Uint8Array> {
  private list: List;
  private count = 0;

  constructor(
    /** Room for so many, with anything in it. */
    private readonly room: (length: number) => List,
    length: number,
  ) {
    this.list = room(length);
  }

  add(some: List): void {
    const { length } = some;
    if (this.count + length > this.list.length) {
      const kept = this.list.slice(0, this.count);
      this.list = this.room(2 * (this.count + length));
      this.list.set(kept);
    }
    this.list.set(some, this.count);
    this.count += length;
  }

  all(): List {
    return this.list.subarray(0, this.count) as List;
  }
}

function artTables(labels: Labels, curve: Float64Array | null): ArtTables {
  return {
    ...softTablesOf(labels, curve, DRAWN_ART),
    encoded: labels.colour,
    oklab: Float64Array.from(labels.oklab.flatMap(({ l, a, b }) => [l, a, b])),
    light: LINEAR_OF_BYTE,
  };
}
