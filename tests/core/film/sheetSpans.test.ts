import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cheapestSpans, piecesFor } from '../../../core/film/sheetSpans.ts';

/** Fewest pieces by trying 1, 2, 3 … laid end to end, each sharing `overlap` with the last. Brute force, our own. */
function countByLaying(length: number, capacity: number, overlap: number): number {
  let covered = capacity;
  let pieces = 1;
  while (covered < length) {
    covered += capacity - overlap;
    pieces++;
  }
  return pieces;
}

describe('how many sheets a length takes', () => {
  test('a 820 mm deck on A4 with 5 mm margins and 10 mm overlap takes 3 lengthwise, and 210 mm takes 2 across', () => {
    // Worked example: tiles = 1 + ceil((820 − 287) / 277) = 3 and 1 + ceil((210 − 200) / 190) = 2 (common tiling sum).
    expect(piecesFor(820, 287, 10)).toBe(3);
    expect(piecesFor(210, 200, 10)).toBe(2);
  });

  test('the formula equals laying pieces end to end, seed 1', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 20, max: 900 }),
        fc.integer({ min: 0, max: 40 }),
        (length, capacity, overlap) => {
          fc.pre(capacity >= 2 * overlap && capacity > overlap);
          expect(piecesFor(length, capacity, overlap)).toBe(countByLaying(length, capacity, overlap));
        },
      ),
      { seed: 1, numRuns: 500 },
    );
  });

  test('a sheet no longer than twice the overlap covers nothing', () => {
    expect(piecesFor(500, 39, 20)).toBe(Infinity);
  });
});

describe('where the seams lie', () => {
  test('they cost no more than the best of all placements on the same grid, and every piece fits, seed 2', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 160 }),
        fc.integer({ min: 30, max: 70 }),
        fc.integer({ min: 2, max: 10 }),
        fc.integer({ min: 0, max: 2 ** 31 }),
        (length, capacity, overlap, salt) => {
          const pieces = piecesFor(length, capacity, overlap);
          fc.pre(pieces >= 2 && pieces <= 4);
          const cost = (at: number) => (Math.imul(at + 1, 2654435761 ^ salt) >>> 8) % 97;
          const found = cheapestSpans(length, capacity, overlap, 1, cost);
          let best = Infinity;
          const walk = (seams: number[], sum: number) => {
            const last = seams.at(-1);
            if (seams.length === pieces - 1) {
              if (length - (last as number) <= capacity) best = Math.min(best, sum);
              return;
            }
            const first = last === undefined ? 0 : last + overlap;
            const end = last === undefined ? capacity : last + capacity;
            for (let at = first; at + overlap <= Math.min(end, length); at++)
              walk([...seams, at], sum + cost(at));
          };
          walk([], 0);
          const price = found.seams.reduce((sum, at) => sum + cost(at), 0);
          expect(price).toBe(best);
          const starts = [0, ...found.seams];
          const ends = [...found.seams.map((at) => at + overlap), length];
          for (const [i, from] of starts.entries()) expect(ends[i]! - from).toBeLessThanOrEqual(capacity);
        },
      ),
      { seed: 2, numRuns: 150 },
    );
  });
});
