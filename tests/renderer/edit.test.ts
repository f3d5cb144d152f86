import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../core/job/index.ts';
import { emptyHistory, type History, record, redone, seal, undone } from '../../renderer/state/edit.ts';

/** Documents are told apart by their name alone; the history never looks inside. */
const job = (name: string) => ({ name }) as Job;
const step = (history: History, before: string, after: string, squash: string | null = null) =>
  record(history, { label: after, before: job(before), after: job(after), squash });

describe('the history of a job', () => {
  test('undo gives back the very document from before, redo the one after', () => {
    const before = job('a');
    const after = job('b');
    const history = record(emptyHistory, { label: 'Change', before, after, squash: null });
    const back = undone(history)!;
    expect(back.job).toBe(before);
    expect(redone(back.history)!.job).toBe(after);
  });

  test('a drag is one step, however many edits it made', () => {
    let history = emptyHistory;
    for (let i = 0; i < 50; i++) history = step(history, `at ${i}`, `at ${i + 1}`, 'drag heron');
    expect(history.past).toHaveLength(1);
    expect(undone(history)!.job.name).toBe('at 0');
  });

  test('two drags of the same art are two steps, and a drag never joins another’s', () => {
    let history = step(emptyHistory, 'a', 'b', 'drag heron');
    history = step(seal(history), 'b', 'c', 'drag heron');
    history = step(history, 'c', 'd', 'drag wave');
    expect(history.past.map((e) => e.after.name)).toEqual(['b', 'c', 'd']);
  });

  test('an edit after an undo forgets what was undone', () => {
    const history = step(undone(step(emptyHistory, 'a', 'b'))!.history, 'a', 'c');
    expect(redone(history)).toBeNull();
    expect(undone(history)!.job.name).toBe('a');
  });

  test('any run of edits, undone all the way and redone, passes through the same documents; seed 7', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (n) => {
        let history = emptyHistory;
        for (let i = 0; i < n; i++) history = step(history, `${i}`, `${i + 1}`);
        const seen: string[] = [];
        for (let back = undone(history); back; back = undone(history)) {
          seen.push(back.job.name);
          history = back.history;
        }
        expect(seen).toEqual(Array.from({ length: n }, (_, i) => `${n - 1 - i}`));
        let last = '';
        for (let on = redone(history); on; on = redone(history)) {
          last = on.job.name;
          history = on.history;
        }
        expect(last).toBe(`${n}`);
      }),
      { seed: 7 },
    );
  });
});
