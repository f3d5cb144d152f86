import { expect, test } from 'vitest';
import { turns } from '../../core/turns.ts';

const tick = () => new Promise((resolve) => setTimeout(resolve, 5));

test('no more work goes on at once than is let, and it begins in the order in which it came', async () => {
  const inTurn = turns(2);
  const begun: number[] = [];
  let going = 0;
  let most = 0;
  const work = (i: number) =>
    inTurn(async () => {
      begun.push(i);
      most = Math.max(most, ++going);
      await tick();
      going--;
      return i * i;
    });
  const results = await Promise.all([0, 1, 2, 3, 4, 5, 6].map(work));
  expect(results).toEqual([0, 1, 4, 9, 16, 25, 36]);
  expect(begun).toEqual([0, 1, 2, 3, 4, 5, 6]);
  expect([most, going]).toEqual([2, 0]);
});

test('work that fails tells so, and gives its turn away all the same', async () => {
  const inTurn = turns(1);
  const failing = inTurn(async () => {
    await tick();
    throw new Error('torn');
  });
  const next = inTurn(async () => 'printed');
  await expect(failing).rejects.toThrow('torn');
  expect(await next).toBe('printed');
  expect(await inTurn(async () => 'and again')).toBe('and again');
});
