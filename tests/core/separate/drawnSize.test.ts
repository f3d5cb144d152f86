import { expect, test } from 'vitest';
import type { Art } from '../../../core/job/index.ts';
import { drawnSize } from '../../../core/separateFace.ts';

const piece = (mediaType: string): Art =>
  ({ mediaType, width: 254, height: 127, widthPx: 3000, heightPx: 1500 }) as unknown as Art;

test('a drawing is drawn as fine as the film up to 600 dpi, and no finer', () => {
  const at = (dpi: number) => drawnSize(piece('image/svg+xml'), dpi);
  expect(at(300)).toEqual({ width: 3000, height: 1500 });
  expect(at(600)).toEqual({ width: 6000, height: 3000 });
  expect(at(1200)).toEqual(at(600));
});

test('a picture keeps its own points unless it has far more than the film', () => {
  expect(drawnSize(piece('image/png'), 1200)).toEqual({ width: 3000, height: 1500 });
  expect(drawnSize(piece('image/png'), 100)).toEqual({ width: 1000, height: 500 });
});
