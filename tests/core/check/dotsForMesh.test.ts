import { expect, test } from 'vitest';
import { checkJob } from '../../../core/check/index.ts';
import type { FaceJob } from '../../../core/job/index.ts';
import { bar, blank, factsOf, ink, inputOf, jobWith } from './smallJob.ts';

const red = ink('Red', '#c02020', { meshPerCm: 77 });

/** The codes a face with lines 0.15 mm wide gives, thinner than the mesh holds as drawn art. */
function codes(more: Partial<FaceJob>): string[] {
  const job = jobWith([red], more);
  const dots = blank();
  for (let y = 1; y < 19; y++) bar(dots, 1, y, 38, 0.15);
  return checkJob(inputOf(job, factsOf(job, [dots]))).map(({ code }) => code);
}

test('dots are no thin lines: shaded art is not judged by its edges, flat art is', () => {
  expect(codes({ method: 'spot' })).toContain('fine-lines');
  expect(codes({ method: 'halftone' })).toEqual([]);
  expect(codes({ method: 'index' })).toEqual([]);
});

test('150 threads/cm hold 40 lines/cm at 3.75 threads a line (a mesh maker’s published example), and 77 do not', () => {
  const screen = { lpi: 40 * 2.54, dot: 'round' as const };
  expect(codes({ method: 'halftone', halftone: screen })).toEqual(['dots-for-mesh']);
  const fine = jobWith([{ ...red, meshPerCm: 150 }], { method: 'halftone', halftone: screen });
  expect(checkJob(inputOf(fine, factsOf(fine, [bar(blank(), 5, 5, 12, 10)])))).toEqual([]);
  const finer = { ...fine.faces.bottom, halftone: { ...screen, lpi: 40.1 * 2.54 } };
  const over = { ...fine, faces: { ...fine.faces, bottom: finer } };
  expect(checkJob(inputOf(over, factsOf(over, [bar(blank(), 5, 5, 12, 10)]))).map((p) => p.code)).toEqual([
    'dots-for-mesh',
  ]);
});

test('an index dot under one and a half threads is too fine (common practice, no source)', () => {
  expect(codes({ method: 'index', index: { dotMm: 0.19 } })).toEqual(['dots-for-mesh']);
  expect(codes({ method: 'index', index: { dotMm: 0.2 } })).toEqual([]);
});
