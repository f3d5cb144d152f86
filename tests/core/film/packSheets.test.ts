import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Item, packSheets } from '../../../core/film/packSheets.ts';

const GAP = 4;
const items = fc.array(
  fc.record({ width: fc.integer({ min: 20, max: 190 }), height: fc.integer({ min: 20, max: 280 }) }),
  { minLength: 1, maxLength: 7 },
);
const BIN = { width: 200, height: 287 };

/** Fewest pages by trying every way of sharing items out, each page tried on every pair of corners; small lists only. */
function fitsOnePage(list: readonly Item[]): boolean {
  // Bottom-left places at every sum of other items' sides: enough for two or three items.
  const place = (left: readonly Item[], done: readonly (Item & { x: number; y: number })[]): boolean => {
    if (left.length === 0) return true;
    const xs = [0, ...done.map((d) => d.x + d.width + GAP)];
    const ys = [0, ...done.map((d) => d.y + d.height + GAP)];
    for (const [i, item] of left.entries()) {
      for (const x of xs) {
        for (const y of ys) {
          if (x + item.width > BIN.width || y + item.height > BIN.height) continue;
          const clash = done.some(
            (d) =>
              x < d.x + d.width + GAP &&
              d.x < x + item.width + GAP &&
              y < d.y + d.height + GAP &&
              d.y < y + item.height + GAP,
          );
          if (clash) continue;
          if (
            place(
              left.filter((_, k) => k !== i),
              [...done, { ...item, x, y }],
            )
          )
            return true;
        }
      }
    }
    return false;
  };
  return place(list, []);
}

describe('films that share a sheet', () => {
  test('two crests of 192 × 136 mm lie one above the other on A4, with one cut across between them', () => {
    const crest = { width: 192, height: 136 };
    const packing = packSheets([crest, crest], BIN, GAP)!;
    expect(packing.pages).toBe(1);
    expect(packing.places.map(({ y }) => y).sort((a, b) => a - b)).toEqual([0, 140]);
    expect(packing.cuts).toEqual([{ page: 0, from: [0, 138], to: [200, 138] }]);
  });

  test('what is larger than the page is refused', () => {
    expect(packSheets([{ width: 201, height: 10 }], BIN, GAP)).toBeNull();
    expect(packSheets([{ width: 10, height: 288 }], BIN, GAP)).toBeNull();
  });

  test('nothing overlaps or leaves the page, gaps are kept, and every two on a page are parted by straight cuts, seed 5', () => {
    fc.assert(
      fc.property(items, (list) => {
        const packing = packSheets(list, BIN, GAP)!;
        expect(packing.places.length).toBe(list.length);
        const boxes = packing.places.map((at, i) => ({ ...at, ...list[i]! }));
        for (const [i, a] of boxes.entries()) {
          expect(a.page).toBeLessThan(packing.pages);
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.y).toBeGreaterThanOrEqual(0);
          expect(a.x + a.width).toBeLessThanOrEqual(BIN.width);
          expect(a.y + a.height).toBeLessThanOrEqual(BIN.height);
          for (const b of boxes.slice(i + 1)) {
            if (a.page !== b.page) continue;
            const apart = Math.max(
              a.x - b.x - b.width,
              b.x - a.x - a.width,
              a.y - b.y - b.height,
              b.y - a.y - a.height,
            );
            expect(apart).toBeGreaterThanOrEqual(GAP - 1e-9);
            // Some drawn cut runs between the two.
            const parted = packing.cuts.some(({ page, from, to }) => {
              if (page !== a.page) return false;
              const k = from[0] === to[0] ? 'x' : 'y';
              const size = k === 'x' ? 'width' : 'height';
              const at = from[k === 'x' ? 0 : 1];
              return (a[k] + a[size] < at && at < b[k]) || (b[k] + b[size] < at && at < a[k]);
            });
            expect(parted).toBe(true);
          }
          // And no cut runs through an item, nor nearer than half a gap.
          for (const { page, from, to } of packing.cuts) {
            if (page !== a.page) continue;
            const clear =
              Math.max(from[0], to[0]) <= a.x - GAP / 2 + 1e-9 ||
              Math.min(from[0], to[0]) >= a.x + a.width + GAP / 2 - 1e-9 ||
              Math.max(from[1], to[1]) <= a.y - GAP / 2 + 1e-9 ||
              Math.min(from[1], to[1]) >= a.y + a.height + GAP / 2 - 1e-9;
            expect(clear).toBe(true);
          }
        }
      }),
      { seed: 5, numRuns: 150 },
    );
  });

  test('up to three items go on one page whenever brute force finds a way, seed 9', () => {
    const few = fc.array(
      fc.record({ width: fc.integer({ min: 40, max: 150 }), height: fc.integer({ min: 60, max: 220 }) }),
      { minLength: 2, maxLength: 3 },
    );
    fc.assert(
      fc.property(few, (list) => {
        // Any three rectangles on a page can be parted by straight cuts, so nothing is lost by packing for them.
        expect(packSheets(list, BIN, GAP)!.pages === 1).toBe(fitsOnePage(list));
      }),
      { seed: 9, numRuns: 300 },
    );
  });
});
