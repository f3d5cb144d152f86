import { expect, test } from 'vitest';
import { latestWins } from '../../renderer/workers/latest.ts';

test('of many requests the first and the newest are answered, the ones between never run', async () => {
  const ran: number[] = [];
  const got: number[] = [];
  let free = () => {};
  const ask = latestWins<number, number>(
    async (n) => {
      ran.push(n);
      await new Promise<void>((resolve) => {
        free = resolve;
      });
      return n * 10;
    },
    (out) => got.push(out),
    () => {},
  );
  for (const n of [1, 2, 3, 4]) ask(n);
  for (let i = 0; i < 2; i++) {
    free();
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  expect(ran).toEqual([1, 4]);
  expect(got).toEqual([10, 40]);
});

test('a request that fails does not stop the next', async () => {
  const failures: unknown[] = [];
  const got: number[] = [];
  const ask = latestWins<number, number>(
    async (n) => {
      if (n === 1) throw new Error('broken');
      return n;
    },
    (out) => got.push(out),
    (error) => failures.push(error),
  );
  ask(1);
  ask(2);
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(failures).toHaveLength(1);
  expect(got).toEqual([2]);
});
