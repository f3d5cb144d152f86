import { expect, test } from 'vitest';
import { type Job, readJob } from '../../../core/job/index.ts';
import { measureKey } from '../../../core/measureKey.ts';
import { planRun } from '../../../core/press/index.ts';
import { reprintOf } from '../../../core/reprint.ts';
import { lotTallies, runProgress } from '../../../core/runLog.ts';
import { inkIn } from '../../../core/runOf.ts';
import { firstWeekdayOf, runPlanInput } from '../../../core/runPlanInput.ts';
import { newRun } from './newRun.ts';

const entry = (
  inkId: string,
  kind: 'printed' | 'spoiled' | 'rescued' | 'test',
  decks: number,
  more = {},
) => ({
  face: 'bottom' as const,
  inkId,
  kind,
  decks,
  words: '',
  ...more,
});
const printed = (press: Partial<Job['press']>): Job => {
  const job = newRun();
  return { ...job, press: { ...job.press, spoilPerPull: 0, ...press } };
};

test('the log tells each lot’s decks pull by pull, lost and rescued ones too', () => {
  const coral = { veneerId: 'natural', colourwayId: null };
  const lilac = { veneerId: 'natural', colourwayId: 'lilac' };
  const job = printed({
    lots: [
      { ...coral, decks: 6 },
      { ...lilac, decks: 4 },
    ],
    log: [
      entry('coral', 'test', 0),
      entry('coral', 'printed', 5, coral),
      entry('coral', 'spoiled', 2, { ...coral, deckNumbers: '3, 5', photo: 'photos/smear.jpg' }),
      entry('coral', 'rescued', 1, coral),
      entry('coral', 'printed', 4, lilac),
      entry('key', 'spoiled', 1, { veneerId: 'natural' }),
    ],
  });
  expect(readJob(JSON.parse(JSON.stringify(job))).ok).toBe(true);
  const [first, second] = lotTallies(job);
  // Two lost, one of them rescued, and the key's one, which names no colourway: the inks as drawn.
  expect(first).toMatchObject({ start: 6, lost: 2, left: 4 });
  expect(first?.pulls[0]).toEqual({ tests: 0, printed: 5, spoiled: 2, rescued: 1 });
  expect(second).toMatchObject({ start: 4, lost: 0, left: 4 });
  expect(runProgress(job)).toEqual({ decks: 8, printed: [8, 0] });
});

test('the plan is made anew from what the log says is printed', () => {
  const ends = [0, 5, 10].map((decks) => {
    const input = runPlanInput(
      printed({
        lots: [{ veneerId: 'natural', colourwayId: null, decks: 10 }],
        log: decks > 0 ? [entry('coral', 'printed', decks)] : [],
      }),
    );
    const made = planRun(input);
    if (!made.ok) throw new Error(made.reason);
    return made.value.result.tasks.find((task) => task.id === 'pull-1-1');
  });
  // Two minutes a deck, common practice: ten, five, none left.
  expect(ends.map((task) => task?.minutes)).toEqual([20, 10, 0]);
  expect(ends.map((task) => task?.name)).toEqual([
    'print 10 decks: coral (bottom)',
    'print the last 5 of 10 decks: coral (bottom)',
    'print 10 decks: coral (bottom)',
  ]);
});

test('the first weekday is the start date’s', () => {
  const { press } = newRun();
  expect(firstWeekdayOf(press)).toBe(5);
  // ISO 8601-1:2019 gives 1985-04-12 as its example of a date; it was a Friday, day 5 of the week (from memory).
  expect(firstWeekdayOf({ ...press, startDate: '1985-04-12' })).toBe(4);
  expect(firstWeekdayOf({ ...press, startDate: '2000-02-29', firstWeekday: 3 })).toBe(1);
});

test('a reprint has the same films and settings, another colourway, and nothing done', () => {
  const job = printed({
    lots: [{ veneerId: 'natural', colourwayId: null, decks: 6 }],
    exposure: { time: 95 },
    inkUse: { 'bottom coral': { passes: 3 } },
    finished: { 'film-1': 300 },
    registerTests: [
      { face: 'bottom', inkId: 'key', readings: [{ x: 1, y: 2, along: 0.1 }], left: 0.03, words: 'w' },
    ],
    log: [entry('coral', 'printed', 6)],
  });
  const made = reprintOf(job, {
    remember: 'March',
    colourway: null,
    fresh: { name: 'Dusk', colours: { coral: { name: 'Violet', hex: '#8a5fb0' } } },
  });
  if (!made.ok) throw new Error(made.reason);
  const again = made.value;
  expect(readJob(JSON.parse(JSON.stringify(again))).ok).toBe(true);
  expect(measureKey(again)).toBe(measureKey(job));
  expect(again.faces).toEqual(job.faces);
  expect(again.press).toMatchObject({ exposure: { time: 95 }, inkUse: { 'bottom coral': { passes: 3 } } });
  expect(again.press.lots).toEqual([{ veneerId: 'natural', colourwayId: 'dusk', decks: 6 }]);
  expect(inkIn(again, again.faces.bottom.inks[0]!, 'dusk')).toEqual({ name: 'Violet', hex: '#8a5fb0' });
  expect([again.press.log, again.press.finished, again.press.registerTests]).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
  expect(again.press.earlier).toMatchObject([
    { name: 'March', log: [{ kind: 'printed', decks: 6 }], finished: { 'film-1': 300 } },
  ]);
  const known = reprintOf(again, { remember: 'April', colourway: 'LILAC' });
  if (!known.ok) throw new Error(known.reason);
  expect(known.value.press.lots?.[0]?.colourwayId).toBe('lilac');
  expect(known.value.press.earlier?.map((run) => run.name)).toEqual(['March', 'April']);
  expect(reprintOf(job, { remember: 'x', colourway: 'Gone' })).toMatchObject({
    ok: false,
    mend: expect.stringContaining('Lilac'),
  });
});
