import { expect, test } from 'vitest';
import { blankMask, equal, getBit, type Mask, thumbnail } from '../../../core/raster/index.ts';
import { thumbnailPlain } from '../../../core/raster/kernels/thumbnailPlain.ts';
import { blobs, randomMask, stream, tidy } from './randomMask.ts';

/** A point has ink where any of its block within the mask and the window had. */
function byDefinition(
  mask: Mask,
  factor: number,
  window: { x: number; y: number; width: number; height: number },
): boolean[] {
  const [across, down] = [Math.ceil(window.width / factor), Math.ceil(window.height / factor)];
  const out = new Array<boolean>(across * down).fill(false);
  for (let y = Math.max(0, window.y); y < Math.min(mask.height, window.y + window.height); y++)
    for (let x = Math.max(0, window.x); x < Math.min(mask.width, window.x + window.width); x++)
      if (getBit(mask, x, y))
        out[Math.floor((y - window.y) / factor) * across + Math.floor((x - window.x) / factor)] = true;
  return out;
}

test('points of a thumbnail have ink where any of their block has, in windows within a mask and beyond it', () => {
  const next = stream(21);
  let inked = 0;
  for (let round = 0; round < 400; round++) {
    const [width, height] = [1 + Math.floor(next() * 400), 1 + Math.floor(next() * 60)];
    // Few points, so that whole words are bare, as most of a film is.
    const mask =
      round % 3 === 0
        ? blobs(width, height, 3, round)
        : randomMask(width, height, round % 2 ? 0.003 : 0.3, round);
    const factor = 1 + Math.floor(next() * 32);
    const window = {
      x: Math.floor((next() - 0.3) * width),
      y: Math.floor((next() - 0.3) * height),
      width: 1 + Math.floor(next() * 1.5 * width),
      height: 1 + Math.floor(next() * 1.5 * height),
    };
    const of = round % 4 === 0 ? { x: 0, y: 0, width, height } : window;
    const small = round % 4 === 0 ? thumbnail(mask, factor) : thumbnail(mask, factor, window);
    const found = Array.from({ length: small.width * small.height }, (_, i) =>
      getBit(small, i % small.width, Math.floor(i / small.width)),
    );
    const plain = blankMask(small.width, small.height);
    thumbnailPlain(mask, factor, of, plain);
    expect(equal(small, plain) && tidy(small)).toBe(true);
    expect(found, `${width} × ${height} by ${factor}, ${JSON.stringify(of)}`).toEqual(
      byDefinition(mask, factor, of),
    );
    inked += found.filter(Boolean).length;
  }
  expect(inked).toBeGreaterThan(2000);
});

test('both twins agree on a film of many bands, whole and in a window', () => {
  const film = blobs(9001, 1203, 700, 3);
  for (const factor of [1, 3, 5, 32])
    for (const window of [
      { x: 0, y: 0, width: 9001, height: 1203 },
      { x: -77, y: -33, width: 9300, height: 1100 },
      { x: 1005, y: 301, width: 6007, height: 1500 },
    ]) {
      const plain = blankMask(Math.ceil(window.width / factor), Math.ceil(window.height / factor));
      thumbnailPlain(film, factor, window, plain);
      expect(equal(thumbnail(film, factor, window), plain), `by ${factor}`).toBe(true);
    }
});
