import { expect, test } from 'vitest';
import { readJob } from '../../../core/job/index.ts';
import { planRun, USUAL_TIMES } from '../../../core/press/index.ts';
import { inkIn, lotsOf, meshOf } from '../../../core/runOf.ts';
import { runPlanInput } from '../../../core/runPlanInput.ts';
import { newRun } from './newRun.ts';

const job = newRun();

test('a job from before the press kept records still opens, and plans with the usual values', () => {
  const read = readJob(JSON.parse(JSON.stringify(job)));
  if (!read.ok) throw new Error(read.reason);
  expect(read.value.press.log).toBeUndefined();
  const input = runPlanInput(read.value);
  expect(input.times).toEqual(USUAL_TIMES);
  // 12 decks, two pulls that spoil 1 % each: 12 / 0.9801 is 12.2.
  expect(input.decks).toBe(13);
  expect(planRun(input).ok).toBe(true);
});

test('records survive a round trip, and steer plan, lots and mesh', () => {
  const press = {
    ...job.press,
    lots: [
      { veneerId: 'natural', colourwayId: null, decks: 4 },
      { veneerId: 'natural', colourwayId: 'lilac', decks: 6 },
      { veneerId: 'gone', colourwayId: null, decks: 3 },
    ],
    spoilPerPull: 0,
    ownMeshes: [{ countPerCm: 77, threadUm: 48, openingUm: 77, thicknessUm: 80 }],
    times: { pull: 3 },
    finished: { 'film-1': 700 },
    log: [{ face: 'bottom', inkId: 'coral', kind: 'spoiled', decks: 1, words: 'hair under the film' }],
  };
  const read = readJob(JSON.parse(JSON.stringify({ ...job, press })));
  if (!read.ok) throw new Error(read.reason);
  expect(read.value.press).toEqual(press);
  const [first, second, ...rest] = lotsOf(read.value);
  expect(rest).toEqual([]);
  expect([first?.good, second?.good]).toEqual([4, 6]);
  const coral = read.value.faces.bottom.inks[0]!;
  expect(inkIn(read.value, coral, second!.colourwayId)).toEqual({ name: 'Lilac', hex: '#b58fd0' });
  expect(meshOf(read.value, 'bottom', coral)).toEqual(press.ownMeshes[0]);
  const input = runPlanInput(read.value);
  // Two colours go through the coral screen, one through the key's.
  expect(input.pulls.map((p) => p.colours)).toEqual([2, 1]);
  // The log says that one of the ten is spoiled.
  expect(input).toMatchObject({ decks: 9, now: 700, times: { pull: 3 } });
});

test('nonsense in the records is refused, not believed', () => {
  for (const bad of [{ spoilPerPull: 2 }, { people: 0 }, { hours: [null] }, { log: [{ kind: 'stolen' }] }])
    expect(readJob(JSON.parse(JSON.stringify({ ...job, press: { ...job.press, ...bad } }))).ok).toBe(false);
});
