import { describe, expect, test } from 'vitest';
import { blankMask, crop, encodeG4, type Mask } from '../../../core/raster/index.ts';
import { cropFast } from '../../../core/raster/kernels/cropFast.ts';
import { cropPlain } from '../../../core/raster/kernels/cropPlain.ts';
import { encodeG4Fast } from '../../../core/raster/kernels/encodeG4Fast.ts';
import { encodeG4Plain } from '../../../core/raster/kernels/encodeG4Plain.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { blobs, randomMask, stream, tidy } from './randomMask.ts';

const fast = kernels() as Kernels;

/** Masks of every awkward width, thin and dense, empty and full, and large ones that need several bands. */
function* masks(): Generator<Mask> {
  const random = stream(11);
  for (let width = 1; width <= 130; width++)
    for (const share of [0, 0.02, 0.5, 1])
      yield randomMask(width, 1 + Math.floor(random() * 40), share, 4 * width);
  for (const [width, height, size] of [
    [4900, 700, 60],
    [2049, 1300, 3],
    [19370, 90, 200],
  ] as const)
    yield blobs(width, height, size, width);
  yield randomMask(3000, 300, 0.5, 1);
  yield randomMask(6000, 80, 0.001, 2);
}

describe('Group 4 by the kernel', () => {
  test('is byte for byte what the plain twin writes', () => {
    let tried = 0;
    for (const mask of masks()) {
      const [a, b] = [encodeG4Fast(fast, mask), encodeG4Plain(mask)];
      expect(Buffer.compare(a, b), `${mask.width} × ${mask.height}`).toBe(0);
      tried++;
    }
    expect(tried).toBeGreaterThan(500);
  });

  test('stays within its room on the pictures that need most', () => {
    for (const width of [1, 2, 63, 64, 65, 900, 2611]) {
      // Rows of single points that shift from row to row by one to seven points: runs of one, and changes three apart.
      for (let shift = 1; shift <= 7; shift++) {
        const mask = blankMask(width, 200);
        for (let y = 0; y < 200; y++)
          for (let x = (y * shift) % 8; x < width; x += 1 + (y % 3) * 2)
            mask.data[y * mask.stride + (x >> 5)]! |= 1 << (x & 31);
        expect(Buffer.compare(encodeG4Fast(fast, mask), encodeG4Plain(mask))).toBe(0);
      }
    }
  });

  test('an empty mask is the end of the block alone', () => {
    expect([...encodeG4(blankMask(0, 0))]).toEqual([0, 16, 1]);
    expect([...encodeG4(blankMask(40, 0))]).toEqual([0, 16, 1]);
  });
});

describe('windows by the kernel', () => {
  test('are those of the plain twin, inside the mask and beyond its borders', () => {
    const random = stream(12);
    const whole = (most: number) => Math.floor(random() * most);
    for (let tried = 0; tried < 600; tried++) {
      const mask = randomMask(1 + whole(300), 1 + whole(60), random(), tried);
      const [x, y] = [whole(420) - 100, whole(100) - 30];
      const [width, height] = [1 + whole(330), 1 + whole(90)];
      const [a, b] = [blankMask(width, height), blankMask(width, height)];
      cropFast(fast, mask, x, y, a);
      cropPlain(mask, x, y, b);
      expect(a.data, `${width} × ${height} from ${x}, ${y} of ${mask.width} × ${mask.height}`).toEqual(
        b.data,
      );
      expect(tidy(a)).toBe(true);
    }
  });

  test('of several bands are too', () => {
    const mask = blobs(19370, 1100, 40, 5);
    for (const [x, y, width, height] of [
      [4801, 17, 4700, 1000],
      [-40, -5, 19500, 1200],
      [14800, 0, 4570, 1100],
      [64, 3, 6400, 900],
    ] as const) {
      const plain = blankMask(width, height);
      cropPlain(mask, x, y, plain);
      expect(crop(mask, x, y, width, height).data).toEqual(plain.data);
    }
  });
});
