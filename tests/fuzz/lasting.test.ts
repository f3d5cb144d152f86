import { describe, expect, test } from 'vitest';
import { edits } from './edits.ts';
import { endurance, growth } from './endurance.ts';
import { kills } from './kills.ts';

/** The reduced forms of what `npm run fuzz` does at length. */
describe('nothing is lost or left', () => {
  test('when the program is killed in a save, an autosave or an export: old or new, seed 21', async () => {
    const counts = { save: 5, autosave: 5, films: 5 };
    const tallies = await kills({ counts, seed: 21 });
    for (const tally of tallies) {
      expect(tally.troubles, tally.what).toEqual([]);
      expect(tally.kills).toBe(counts[tally.what]);
    }
    expect(tallies.some((tally) => tally.written > 0)).toBe(true);
  });

  test('when films are made again and again, and stopped again and again, seed 22', async () => {
    const told = await endurance({ exports: 7, cancels: 10, seed: 22 });
    expect(told.memory).toHaveLength(7);
    // So few exports only show a leak of whole films; the tenth that is promised is measured over a hundred.
    expect(growth(told.memory)).toBeLessThan(1.2);
    expect(told.stopped).toBeGreaterThan(0);
    expect(told.left).toEqual([]);
    expect(told.files).toEqual([]);
    expect(told.threads[1]).toBeLessThanOrEqual(told.threads[0] + 1);
    expect(told.ended).toBe(0);
  });

  test('of a document after thousands of edits, undos and redos, seeds 1 to 4', () => {
    for (const seed of [1, 2, 3, 4]) {
      const tally = edits(2000, seed);
      expect(tally.troubles, `seed ${seed}`).toEqual([]);
      expect(tally.edits).toBeGreaterThan(1000);
      expect(tally.undos).toBeGreaterThan(400);
      expect(tally.redos).toBeGreaterThan(100);
    }
  });
});
