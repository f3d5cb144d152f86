import { type Colourway, type EarlierRun, idFrom, type Job } from './job/index.ts';
import { lotsOf } from './runOf.ts';
import { jobTrouble } from './sentences/index.ts';
import { done, type Outcome } from './units/index.ts';

export interface ReprintWish {
  /** What the run that is over is remembered as. */
  readonly remember: string;
  /** A colourway of the job by id or name, or null for the inks as drawn. */
  readonly colourway: string | null;
  /** A colourway to make: its name, and names and colours by ink id. Takes the place of `colourway`. */
  readonly fresh?: Pick<Colourway, 'name' | 'colours'>;
}

/** The run that is over, as it is looked back on. */
function earlierOf(job: Job, name: string): EarlierRun {
  const { log = [], registerTests = [], finished = {} } = job.press;
  return {
    name,
    lots: lotsOf(job).map(({ veneerId, colourwayId, good }) => ({ veneerId, colourwayId, decks: good })),
    log,
    registerTests,
    finished,
  };
}

/**
 * The job as its reprint begins: the films' own inputs untouched, so that the films are the same bytes; meshes, exposures,
 * ink use, times and corrections as they were last; all lots in one colourway; nothing done yet. What the last run said
 * is kept among the earlier ones.
 */
export function reprintOf(job: Job, wish: ReprintWish): Outcome<Job> {
  const inks = [...job.faces.bottom.inks, ...job.faces.top.inks];
  let { colourways } = job;
  let colourwayId: string | null = null;
  if (wish.fresh) {
    const stray = Object.keys(wish.fresh.colours).find((id) => !inks.some((ink) => ink.id === id));
    if (stray !== undefined) return jobTrouble.noInk(stray, inks.map((ink) => ink.id).join(', '));
    // The first colourway is the inks as drawn.
    if (colourways.length === 0) colourways = [{ id: 'drawn', name: 'As drawn', colours: {} }];
    colourwayId = idFrom(
      wish.fresh.name,
      colourways.map((way) => way.id),
    );
    colourways = [...colourways, { id: colourwayId, ...wish.fresh }];
    if (colourways.length > 50) return jobTrouble.tooManyColourways();
  } else if (wish.colourway !== null) {
    const wanted = wish.colourway.trim().toLowerCase();
    const known = colourways.find((way) => way.id === wish.colourway || way.name.toLowerCase() === wanted);
    if (!known)
      return jobTrouble.noColourway(
        wish.colourway,
        colourways.length > 0
          ? `Choose ${colourways.map((way) => way.name).join(', ')}, or make one.`
          : 'Make one, or print the inks as drawn.',
      );
    colourwayId = known === colourways[0] ? null : known.id;
  }
  const veneers = new Map<string, number>();
  for (const lot of lotsOf(job)) veneers.set(lot.veneerId, (veneers.get(lot.veneerId) ?? 0) + lot.good);
  const { finished: _done, log: _log, registerTests: _tests, startDate: _date, ...kept } = job.press;
  return done({
    ...job,
    colourways,
    press: {
      ...kept,
      lots: [...veneers].map(([veneerId, decks]) => ({ veneerId, colourwayId, decks })),
      earlier: [...(job.press.earlier ?? []), earlierOf(job, wish.remember)].slice(-200),
    },
  });
}
