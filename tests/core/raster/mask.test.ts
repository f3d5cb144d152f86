import { describe, expect, test } from 'vitest';
import {
  blankMask,
  complement,
  copyMask,
  crop,
  draw,
  equal,
  getBit,
  inkCount,
  inkedBox,
  intersect,
  isBlank,
  maskOf,
  msbRows,
  paste,
  setBit,
  strideFor,
  subtract,
  union,
} from '../../../core/raster/index.ts';
import { randomMask, stream, tidy } from './randomMask.ts';

const WIDTHS = [1, 2, 7, 8, 31, 32, 33, 63, 64, 65, 96, 127, 128, 129, 130];

describe('masks', () => {
  test('rows start on 16 bytes', () => {
    expect([1, 128, 129, 19370].map(strideFor)).toEqual([4, 4, 8, 608]);
  });

  test('a drawing comes back as it went in', () => {
    expect(draw(maskOf('.#. / ### / ...'))).toBe('.#. / ### / ...');
    expect(() => maskOf('.# / #')).toThrow(RangeError);
  });

  test('points outside the mask are bare and can not be set', () => {
    const mask = blankMask(5, 5);
    setBit(mask, -1, 2);
    setBit(mask, 5, 2);
    setBit(mask, 2, 5);
    expect(isBlank(mask)).toBe(true);
    expect(getBit(mask, -1, 0)).toBe(false);
  });

  test.each(WIDTHS)('algebra agrees with single points at width %i', (width) => {
    const a = randomMask(width, 9, 0.5, width);
    const b = randomMask(width, 9, 0.4, width + 1000);
    const cases = [
      [union(a, b), (p: boolean, q: boolean) => p || q],
      [intersect(a, b), (p: boolean, q: boolean) => p && q],
      [subtract(a, b), (p: boolean, q: boolean) => p && !q],
      [complement(a), (p: boolean) => !p],
    ] as const;
    for (const [mask, rule] of cases) {
      expect(tidy(mask)).toBe(true);
      for (let y = 0; y < 9; y++)
        for (let x = 0; x < width; x++)
          expect(getBit(mask, x, y)).toBe(rule(getBit(a, x, y), getBit(b, x, y)));
    }
    const own = copyMask(a);
    expect(equal(subtract(own, b, own), subtract(a, b))).toBe(true);
  });

  test.each(WIDTHS)('count, box and rows agree with single points at width %i', (width) => {
    for (const share of [0, 0.01, 0.3, 1]) {
      const mask = randomMask(width, 11, share, width + 7);
      let [count, x0, y0, x1, y1] = [0, Infinity, Infinity, -1, -1];
      const bytes = msbRows(mask);
      for (let y = 0; y < 11; y++)
        for (let x = 0; x < width; x++) {
          const ink = getBit(mask, x, y);
          const bit = (bytes[y * Math.ceil(width / 8) + (x >> 3)]! >> (7 - (x & 7))) & 1;
          expect(bit === 1).toBe(ink);
          if (!ink) continue;
          count++;
          [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
        }
      expect(inkCount(mask)).toBe(count);
      expect(isBlank(mask)).toBe(count === 0);
      expect(inkedBox(mask)).toEqual(
        count === 0 ? null : { x: x0, y: y0, width: x1 - x0 + 1, height: y1 - y0 + 1 },
      );
    }
  });

  test('crop and paste agree with single points at any offset', () => {
    const next = stream(5);
    for (let i = 0; i < 200; i++) {
      const whole = (n: number) => Math.floor(next() * n);
      const mask = randomMask(1 + whole(130), 1 + whole(12), 0.5, i);
      const [x, y] = [whole(180) - 70, whole(24) - 12];
      const part = crop(mask, x, y, 1 + whole(130), 1 + whole(12));
      expect(tidy(part)).toBe(true);
      for (let r = 0; r < part.height; r++)
        for (let c = 0; c < part.width; c++) expect(getBit(part, c, r)).toBe(getBit(mask, c + x, r + y));
      const into = randomMask(1 + whole(130), 1 + whole(12), 0.2, i + 999);
      const before = copyMask(into);
      paste(into, mask, x, y);
      expect(tidy(into)).toBe(true);
      for (let r = 0; r < into.height; r++)
        for (let c = 0; c < into.width; c++)
          expect(getBit(into, c, r)).toBe(getBit(before, c, r) || getBit(mask, c - x, r - y));
    }
  });

  test('masks of different sizes do not mix', () => {
    expect(() => union(blankMask(4, 4), blankMask(5, 4))).toThrow(/one size/);
  });

  test('shared memory works as memory of its own does', () => {
    const shared = blankMask(40, 3, true);
    paste(shared, maskOf('## / .#'), 30, 1);
    expect(shared.data.buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(inkedBox(shared)).toEqual({ x: 30, y: 1, width: 2, height: 2 });
    // A copy is one thread's own: it is given back when that thread is done with it, and shared memory is not.
    expect(copyMask(shared).data.buffer).toBeInstanceOf(ArrayBuffer);
    expect([...copyMask(shared).data]).toEqual([...shared.data]);
  });
});
