import { expect, test } from 'vitest';
import { inkCount } from '../../../core/raster/index.ts';
import { filmsOf, render } from '../../reference/separation/measure.ts';

const INK = '#1b2440';
/** A line of `wide` points across 40, its middle at `at`, upright or lying, on nothing or on yellow. */
const lineAt = (at: number, wide: number, lying: boolean, ground: string | null) =>
  render(
    `<svg xmlns="http://www.w3.org/2000/svg" width="40" height="40">${ground ? `<rect width="40" height="40" fill="${ground}"/>` : ''}<rect ${lying ? `x="4" width="32" y="${at - wide / 2}" height="${wide}"` : `y="4" height="32" x="${at - wide / 2}" width="${wide}"`} fill="${INK}"/></svg>`,
  );
const SCALE = 8;

test('a line thinner than a point is traced wherever it lies, at its own width or, between two rows, a point wide', async () => {
  for (const ground of [null, '#f2b632'])
    for (const lying of [false, true])
      for (const wide of [0.85, 1, 1.2])
        for (let at = 20; at < 21; at += 0.125) {
          const art = await lineAt(at, wide, lying, ground);
          const inks = ground ? [INK, ground] : [INK];
          const [film] = filmsOf(art, inks, null, SCALE, { coarse: true });
          const name = `${wide} points at ${at}, ${lying ? 'lying' : 'upright'}, on ${ground}`;
          const drawn = inkCount(film!) / (32 * SCALE * SCALE);
          expect(drawn, name).toBeGreaterThan(0.8 * wide);
          expect(drawn, name).toBeLessThan(Math.max(1.1, 1.15 * wide));
        }
});

test('a shade far thinner than a point makes no line', async () => {
  const [film] = filmsOf(await lineAt(20.5, 0.25, false, null), [INK], null, SCALE, { coarse: true });
  expect(inkCount(film!)).toBe(0);
});
