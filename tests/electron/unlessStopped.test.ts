import { expect, test } from 'vitest';
import { done, type Outcome } from '../../core/units/index.ts';
import { sharpCodec } from '../../electron/host/index.ts';
import { unlessStopped } from '../../electron/host/unlessStopped.ts';

test('what is not stopped gives what it gives, also when it fails or throws', async () => {
  const abort = { aborted: false };
  expect(await unlessStopped(Promise.resolve(done(7)), abort)).toEqual({ ok: true, value: 7 });
  await expect(unlessStopped(Promise.reject(new Error('torn')), abort)).rejects.toThrow('torn');
  expect(await unlessStopped(Promise.resolve(done(8)))).toEqual({ ok: true, value: 8 });
});

test('what never ends is left as cancelled once the flag is up', async () => {
  const abort = { aborted: false };
  const never = new Promise<Outcome<number>>(() => {});
  const left = unlessStopped(never, abort);
  abort.aborted = true;
  expect(await left).toMatchObject({ ok: false, kind: 'cancelled' });
});

test('a drawing under way is left when the work is stopped, and can be drawn again', async () => {
  const shapes = Array.from(
    { length: 3000 },
    (_, i) =>
      `<circle cx="${i % 97}" cy="${i % 89}" r="${(i % 40) + 1}" fill="none" stroke="#${100 + (i % 800)}"/>`,
  );
  const bytes = new TextEncoder().encode(
    `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">${shapes.join('')}</svg>`,
  );
  const codec = sharpCodec();
  const window = { x: 0, y: 0, width: 100, height: 100, outWidth: 2500, outHeight: 2500 };
  const stopped = await codec.rasterise(bytes, 'rings.svg', window, { aborted: true });
  expect(stopped).toMatchObject({ ok: false, kind: 'cancelled' });
  const drawn = await codec.rasterise(bytes, 'rings.svg', { ...window, outWidth: 200, outHeight: 200 });
  expect(drawn.ok && drawn.value.width).toBe(200);
});
