import type { Face } from './deck/index.ts';
import type { Ink, Job, LogEntry } from './job/index.ts';
import { lotsOf, pullsOf, type RunLot } from './runOf.ts';

/** What the log says of one pull, over all decks or one lot. */
export interface PullTally {
  readonly tests: number;
  readonly printed: number;
  readonly spoiled: number;
  readonly rescued: number;
}

/** Decks the log lost for good: spoiled and not rescued. Never less than none. */
export const lostIn = ({ spoiled, rescued }: PullTally): number => Math.max(0, spoiled - rescued);

function tally(entries: readonly LogEntry[]): PullTally {
  const sum = (kind: LogEntry['kind']) =>
    entries.filter((entry) => entry.kind === kind).reduce((n, entry) => n + entry.decks, 0);
  return {
    tests: entries.filter((entry) => entry.kind === 'test').length,
    printed: sum('printed'),
    spoiled: sum('spoiled'),
    rescued: sum('rescued'),
  };
}

/** The tally of one pull. */
export const pullTally = (job: Job, face: Face, ink: Ink): PullTally =>
  tally((job.press.log ?? []).filter((entry) => entry.face === face && entry.inkId === ink.id));

export interface LotTally extends RunLot {
  /** Of its blanks, those still good as far as the log says which lot it is about. */
  readonly left: number;
  readonly lost: number;
  /** By pull, in print order. */
  readonly pulls: readonly PullTally[];
}

/** Each lot with what the log says of it, pull by pull. Entries that name no lot count for none. */
export function lotTallies(job: Job): LotTally[] {
  const log = job.press.log ?? [];
  return lotsOf(job).map((lot) => {
    const mine = log.filter(
      (entry) => entry.veneerId === lot.veneerId && (entry.colourwayId ?? null) === lot.colourwayId,
    );
    const lost = lostIn(tally(mine));
    return {
      ...lot,
      lost,
      left: Math.max(0, lot.start - lost),
      pulls: pullsOf(job).map(({ face, ink }) =>
        tally(mine.filter((entry) => entry.face === face && entry.inkId === ink.id)),
      ),
    };
  });
}

/** Decks that are still in the run, and how many of them each pull has been printed on. */
export function runProgress(job: Job): { readonly decks: number; readonly printed: readonly number[] } {
  const start = lotsOf(job).reduce((n, lot) => n + lot.start, 0);
  const tallies = pullsOf(job).map(({ face, ink }) => pullTally(job, face, ink));
  const decks = Math.max(0, start - tallies.reduce((n, one) => n + lostIn(one), 0));
  // A deck that was lost later had its print: it is no longer among those that are left.
  return { decks, printed: tallies.map((one) => Math.max(0, Math.min(decks, one.printed))) };
}
