import { expect, test } from 'vitest';
import type { Art } from '../../../core/job/index.ts';
import { drawnSize } from '../../../core/separateFace.ts';

const piece = (mediaType: string): Art =>
  ({ mediaType, width: 254, height: 127, widthPx: 3000, heightPx: 1500 }) as unknown as Art;

test('a drawing is drawn at half the film’s points: no less than 300 dpi unless the film has less, no more than 600', () => {
  const at = (dpi: number) => drawnSize(piece('image/svg+xml'), dpi);
  expect(at(150)).toEqual({ width: 1500, height: 750 });
  expect(at(300)).toEqual({ width: 3000, height: 1500 });
  expect(at(600)).toEqual(at(300));
  expect(at(800)).toEqual({ width: 4000, height: 2000 });
  expect(at(1200)).toEqual({ width: 6000, height: 3000 });
  expect(at(2400)).toEqual(at(1200));
});

test('a picture keeps its own points unless it has far more than the film', () => {
  expect(drawnSize(piece('image/png'), 1200)).toEqual({ width: 3000, height: 1500 });
  expect(drawnSize(piece('image/png'), 100)).toEqual({ width: 1000, height: 500 });
});
