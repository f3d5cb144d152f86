import { expect, test } from 'vitest';
import { unevenPoints } from '../../../core/separate/uneven.ts';
import { Workspace } from '../../../core/separate/workspace.ts';
import { random } from '../../reference/separation/flatArt.ts';

/** Straight from the definition. */
function isUneven(points: Int32Array, width: number, height: number, x: number, y: number): boolean {
  const held = (v: number, most: number) => Math.max(0, Math.min(most - 1, v));
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++)
      if (points[held(y + dy, height) * width + held(x + dx, width)] !== points[y * width + x]) return true;
  return false;
}

test('uneven points are found at every width from 1 to 130, in flat, speckled and mixed pictures', () => {
  const next = random(11);
  // One space for all: nothing of an earlier picture may show.
  const space = new Workspace();
  for (let width = 1; width <= 130; width++)
    for (const share of [0, 0.01, 0.3]) {
      const height = 1 + Math.floor(next() * 12);
      const points = Int32Array.from({ length: width * height }, () => (next() < share ? -5 : 7));
      const bits = unevenPoints(points, width, height, space);
      const stride = (width + 31) >>> 5;
      const found: number[] = [];
      const truth: number[] = [];
      for (let y = 0; y < height; y++)
        for (let x = 0; x < stride * 32; x++) {
          if ((bits[y * stride + (x >> 5)]! >>> (x & 31)) & 1) found.push(y * 1000 + x);
          if (x < width && isUneven(points, width, height, x, y)) truth.push(y * 1000 + x);
        }
      expect(found, `${width} × ${height}`).toEqual(truth);
    }
});
