import { expect, test } from 'vitest';
import { inkFrom, type Job, newJob, readJob } from '../../../core/job/index.ts';
import { runPlanInput } from '../../../core/runPlanInput.ts';
import {
  EMPTY_SHOP,
  fillFromShop,
  isEmptyShop,
  keepForShop,
  readShop,
  type Shop,
  startInShop,
} from '../../../core/shop/index.ts';
import { PLAIN } from '../deck/anyDeck.ts';

const jobWith = (press: Partial<Job['press']>, inks: readonly string[] = []): Job => {
  const blank = newJob({ name: 'Run', deck: PLAIN });
  const made = inks.map((name) => inkFrom({ name, hex: '#1b2440' }, []));
  return {
    ...blank,
    faces: { ...blank.faces, bottom: { ...blank.faces.bottom, inks: made } },
    press: { ...blank.press, ...press },
  };
};

const USED = jobWith(
  {
    frameWidth: 420,
    frameLength: 1100,
    frameBar: 30,
    frames: 3,
    ownMeshes: [{ countPerCm: 77, threadUm: 48 }],
    inkUse: { 'bottom night-blue': { density: 1.3, potMl: 250, price: 18 } },
    exposure: { lamp: 'Black box', distance: 450, time: 95, targetStep: 7 },
    emulsion: { name: 'Dual cure', coats: 1, wetUm: 25 },
    times: { pull: 3 },
    people: 2,
    deckPrice: 14,
  },
  ['Night blue'],
);

test('what a job was printed with is what the next job begins with, inks by their names', () => {
  const shop = keepForShop(EMPTY_SHOP, USED);
  expect(readShop(JSON.parse(JSON.stringify(shop)))).toEqual({ ok: true, value: shop });
  const next = startInShop(jobWith({}, ['night  BLUE', 'Coral']), shop);
  expect(readJob(JSON.parse(JSON.stringify(next))).ok).toBe(true);
  expect(next.press).toMatchObject({
    frameWidth: 420,
    frameLength: 1100,
    frameBar: 30,
    frames: 3,
    ownMeshes: [{ countPerCm: 77, threadUm: 48 }],
    exposure: { lamp: 'Black box', distance: 450, time: 95, targetStep: 7 },
    emulsion: { name: 'Dual cure', coats: 1, wetUm: 25 },
    people: 2,
    deckPrice: 14,
  });
  const [blue, coral] = next.faces.bottom.inks;
  expect(next.press.inkUse?.[`bottom ${blue?.id}`]).toEqual({ density: 1.3, potMl: 250, price: 18 });
  expect(next.press.inkUse?.[`bottom ${coral?.id}`]).toBeUndefined();
  expect(runPlanInput(next)).toMatchObject({ people: 2, frames: 3, times: { pull: 3, coat: 10 } });
});

test('what a job states is its own: the shop fills only what is open', () => {
  const shop = keepForShop(EMPTY_SHOP, USED);
  const job = jobWith(
    { people: 1, times: { pull: 9 }, exposure: { time: 30 }, inkUse: { 'bottom night-blue': { price: 5 } } },
    ['Night blue'],
  );
  const filled = fillFromShop(job, shop);
  expect(filled.press.people).toBe(1);
  expect(filled.press.times).toEqual({ pull: 9 });
  expect(filled.press.exposure).toEqual({ lamp: 'Black box', distance: 450, time: 30, targetStep: 7 });
  expect(filled.press.inkUse).toEqual({ 'bottom night-blue': { density: 1.3, potMl: 250, price: 5 } });
  // The frame is one of those a job always states.
  expect(filled.press.frameWidth).toBe(job.press.frameWidth);
  expect(fillFromShop(filled, shop)).toEqual(filled);
  expect(fillFromShop(job, EMPTY_SHOP)).toEqual(job);
});

test('keeping a second job forgets nothing of the first, and puts the newest first', () => {
  const first = keepForShop(EMPTY_SHOP, USED);
  const second = keepForShop(first, jobWith({ exposure: { lamp: 'Sun' }, frames: 2 }, ['Coral']));
  expect(second.lamps.map((l) => l.name)).toEqual(['Sun', 'Black box']);
  expect(second.inks.map((i) => i.name)).toEqual(['Coral', 'Night blue']);
  expect(second.frames.map((f) => [f.width, f.length])).toEqual([
    [400, 1060],
    [420, 1100],
  ]);
  expect(second.habits.people).toBe(2);
  // The same lamp again keeps what the new job does not state.
  const third = keepForShop(second, jobWith({ exposure: { lamp: 'black box', time: 80 } }));
  expect(third.lamps[0]).toEqual({ name: 'black box', distance: 450, time: 80 });
});

test('nonsense in a shop’s file is told by its place, and a newer one is left alone', () => {
  const broken: Shop = { ...EMPTY_SHOP, lamps: [{ name: '' }] };
  expect(readShop(broken)).toMatchObject({ ok: false, reason: expect.stringContaining('lamps[0].name') });
  expect(readShop({ ...EMPTY_SHOP, version: 2 })).toMatchObject({
    ok: false,
    reason: expect.stringContaining('newer Kickflat'),
  });
  for (const raw of [null, [], 7, 'shop']) expect(readShop(raw).ok).toBe(false);
  expect(isEmptyShop(EMPTY_SHOP)).toBe(true);
  expect(isEmptyShop({ ...EMPTY_SHOP, habits: { people: 2 } })).toBe(false);
});
