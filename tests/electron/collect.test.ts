import { expect, test } from 'vitest';
import { collect } from '../../electron/host/collect.ts';

test('what nobody refers to any more is freed at once', async () => {
  const pictures = [new WeakRef(new Uint8Array(1 << 20)), new WeakRef(new Uint8Array(1 << 20))];
  const held = new Uint8Array(1 << 20);
  const kept = new WeakRef(held);
  // A weak reference keeps what it refers to until the running job is done.
  await new Promise((resolve) => setTimeout(resolve, 0));
  collect();
  expect(pictures.map((picture) => picture.deref())).toEqual([undefined, undefined]);
  expect(kept.deref()).toBe(held);
});
