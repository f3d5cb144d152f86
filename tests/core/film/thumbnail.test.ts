import { expect, test } from 'vitest';
import { thumbnail } from '../../../core/film/thumbnail.ts';
import { getBit, type Mask } from '../../../core/raster/index.ts';
import { blobs, randomMask, stream } from '../raster/randomMask.ts';

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
    expect(found, `${width} × ${height} by ${factor}, ${JSON.stringify(of)}`).toEqual(
      byDefinition(mask, factor, of),
    );
    inked += found.filter(Boolean).length;
  }
  expect(inked).toBeGreaterThan(2000);
});
