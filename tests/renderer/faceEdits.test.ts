import { expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { inkFrom, type Job, newJob } from '../../core/job/index.ts';
import {
  addInk,
  changeTraps,
  inkColour,
  moveBoundaries,
  moved,
  moveInk,
  removeInk,
  sameButBoundaries,
} from '../../renderer/state/faceEdits.ts';

const inks = ['Sun yellow', 'Coral', 'Night blue'].reduce<Job['faces']['bottom']['inks']>(
  (list, name) => [...list, inkFrom({ name, hex: '#e8613c' }, list)],
  [],
);
const start = newJob({ name: 'Test run', deck: deckTemplate('popsicle-8.25')! });
const job: Job = { ...start, faces: { ...start.faces, bottom: { ...start.faces.bottom, inks } } };
const names = (j: Job) => j.faces.bottom.inks.map((i) => i.name);

test('moving an item keeps all the others in their order', () => {
  expect(moved(['a', 'b', 'c', 'd'], 0, 2)).toEqual(['b', 'c', 'a', 'd']);
  expect(moved(['a', 'b', 'c', 'd'], 3, 0)).toEqual(['d', 'a', 'b', 'c']);
});

test('a pull moves on its own face and the document before stays as it was', () => {
  const after = moveInk(job, 'bottom', 2, 0);
  expect(names(after)).toEqual(['Night blue', 'Sun yellow', 'Coral']);
  expect(names(job)).toEqual(['Sun yellow', 'Coral', 'Night blue']);
  expect(after.faces.top).toBe(job.faces.top);
});

test('a base goes under all, a colour on top of all', () => {
  const base = inkFrom({ name: 'Base white', hex: '#f7f3e8', role: 'base' }, inks);
  expect(names(addInk(job, 'bottom', base))[0]).toBe('Base white');
  const ink = inkFrom({ name: 'Lilac', hex: '#b58fd0' }, inks);
  expect(names(addInk(job, 'bottom', ink)).at(-1)).toBe('Lilac');
});

test('an ink that goes takes its trap rules along', () => {
  const [a, b] = inks as [(typeof inks)[0], (typeof inks)[0]];
  const ruled = changeTraps(job, 'bottom', { pairs: [{ a: a.id, b: b.id, spreads: 'a', width: null }] });
  expect(removeInk(ruled, 'bottom', b.id).faces.bottom.traps.pairs).toEqual([]);
});

test('a colourway changes only the inks it names', () => {
  const [a, b] = inks as [(typeof inks)[0], (typeof inks)[0]];
  const way: Job = {
    ...job,
    colourways: [{ id: 'lilac', name: 'Lilac', colours: { [b.id]: { name: 'Lilac', hex: '#b58fd0' } } }],
  };
  expect(inkColour(way, b, 'lilac')).toEqual({ name: 'Lilac', hex: '#b58fd0' });
  expect(inkColour(way, a, 'lilac').hex).toBe(a.hex);
  expect(inkColour(way, b, null).hex).toBe(b.hex);
});

test('moved boundaries are told from every other change, so that no proof is drawn for them', () => {
  const there = moveBoundaries(job, 'bottom', 'coral', [-100, 140]);
  expect(there.faces.bottom.boundaries).toEqual({ coral: [-100, 140] });
  expect(sameButBoundaries(job, there)).toBe(true);
  expect(sameButBoundaries(there, moveBoundaries(there, 'bottom', 'coral', null))).toBe(true);
  expect(sameButBoundaries(job, moveInk(there, 'bottom', 2, 0))).toBe(false);
  expect(sameButBoundaries(job, { ...there, name: 'Another' })).toBe(false);
  expect(moveBoundaries(there, 'bottom', 'coral', null).faces.bottom.boundaries).toEqual({});
});
