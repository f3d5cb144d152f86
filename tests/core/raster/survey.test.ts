import { expect, test } from 'vitest';
import { inkedBox, type Mask, surveyedBox, surveyInk } from '../../../core/raster/index.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { surveyFast } from '../../../core/raster/kernels/surveyFast.ts';
import { surveyPlain } from '../../../core/raster/kernels/surveyPlain.ts';
import { getBit } from '../../../core/raster/mask.ts';
import { blobs, randomMask, stream } from './randomMask.ts';

const fast = kernels() as Kernels;

/** The survey point by point. */
function surveyed(mask: Mask, step: number) {
  const { width, height } = mask;
  const by = (length: number, value: number) => new Int32Array(length).fill(value);
  const survey = {
    rows: by(height, 0),
    left: by(height, width),
    right: by(height, -1),
    columns: by(width, 0),
    top: by(width, height),
    bottom: by(width, -1),
  };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (!getBit(mask, x, y)) continue;
      survey.rows[y]! += 1;
      if (y % step === 0) survey.columns[x]! += step;
      if (x < survey.left[y]!) survey.left[y] = x;
      if (y < survey.top[x]!) survey.top[x] = y;
      survey.right[y] = x;
      survey.bottom[x] = y;
    }
  return survey;
}

test('ink is surveyed by rows and columns as if point by point, at every width to 130', () => {
  const next = stream(4);
  let tried = 0;
  for (let width = 1; width <= 130; width++)
    for (const share of [0, 0.01, 0.6, 1]) {
      const mask = randomMask(width, 1 + Math.floor(next() * 40), share, width);
      const step = 1 + Math.floor(next() * 5);
      const name = `${width} × ${mask.height}, ${share}`;
      const whole = surveyed(mask, step);
      expect(surveyPlain(mask, step), name).toEqual(whole);
      expect(surveyFast(fast, mask, step), name).toEqual(whole);
      expect(surveyedBox(whole), name).toEqual(inkedBox(mask));
      tried++;
    }
  expect(tried).toBe(520);
});

test('masks of several bands are surveyed alike by both', () => {
  for (const [width, height, size] of [
    [4900, 700, 60],
    [2049, 1300, 3],
    [19370, 90, 200],
    [3000, 900, 0],
  ] as const) {
    const mask = blobs(width, height, size, width);
    const plain = surveyPlain(mask, 6);
    expect(surveyFast(fast, mask, 6)).toEqual(plain);
    expect(surveyedBox(plain)).toEqual(inkedBox(mask));
  }
});

test('a mask without points has no box', () => {
  const none = surveyInk(randomMask(40, 0, 0, 1), 3);
  expect(none.rows.length).toBe(0);
  expect(surveyedBox(none)).toBeNull();
});
