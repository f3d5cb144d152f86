import { describe, expect, test } from 'vitest';
import type { Picture } from '../../../core/raster/index.ts';
import { wordsOf } from '../../../core/separate/codes.ts';
import { type DrawnArt, separateDrawn } from '../../../core/separate/drawnArt.ts';
import { labelsOf } from '../../../core/separate/labels.ts';
import { separateByStages } from '../../../core/separate/separateWindow.ts';
import { unplannedTally } from '../../../core/separate/unplanned.ts';
import { Workspace } from '../../../core/separate/workspace.ts';
import { stream } from '../raster/randomMask.ts';
import { INKS, softArt } from './softArt.ts';

const LIGHT = Float64Array.from({ length: 256 }, (_, i) => 255 * (i / 255) ** 2.2);

function both(picture: Picture, ground: string | null, curve: Float64Array | null) {
  const { width, height } = picture;
  // Two inks of one label's plane, and a colour given to bare by hand.
  const also = [
    { hex: '#d02020', ink: 3 },
    { hex: '#c0ffee', ink: null },
  ];
  const labels = labelsOf({ inks: INKS, ground, also });
  const words = wordsOf(picture);
  const planes = INKS.length + 1;
  const [seen, counted] = [unplannedTally(), unplannedTally()];
  const fast = separateDrawn(words, width, height, labels, curve, planes, seen, true, new Workspace());
  const space = new Workspace();
  const plain = separateByStages(picture, words, labels, curve, planes, false, counted, space);
  return { fast: fast as DrawnArt, plain, seen, counted };
}

const same = (a: ArrayLike<number>, b: ArrayLike<number>): boolean => {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
};

function expectSame({ fast, plain, seen, counted }: ReturnType<typeof both>): void {
  for (const what of ['winners', 'shared', 'shares', 'soft'] as const)
    expect(same(fast[what], plain[what]), what).toBe(true);
  for (const what of ['counts', 'red', 'green', 'blue'] as const)
    expect(same(seen[what], counted[what]), what).toBe(true);
  expect(seen.seen).toBe(counted.seen);
}

describe('drawn art in one pass of bands', () => {
  const cases = [
    [1, 1, 0],
    [1, 60, 0],
    [60, 1, 30],
    [5, 33, 0],
    [7, 9, 0],
    [130, 70, 0],
    [200, 160, 14],
    [90, 240, 60],
    // Rows of so many points go through in bands of a few.
    [3000, 260, 6],
    [17000, 90, 0],
  ] as const;
  for (const [width, height, noise] of cases)
    for (const ground of ['#ffffff', null])
      test(`${width} × ${height}, noise ${noise}, ${ground ? 'on white' : 'on nothing'}: all is as the stages find it one after the other`, () => {
        const picture = softArt(width, height, width + height + noise, noise, ground === null);
        for (const curve of [null, LIGHT]) {
          const found = both(picture, ground, curve);
          expectSame(found);
          if (width > 100) expect(found.plain.shared.length).toBeGreaterThan(300);
        }
      });

  test('flat colours near no ink are counted alike, at every alpha', () => {
    const random = stream(77);
    const [width, height] = [640, 300];
    const data = new Uint8Array(width * height * 4);
    const words = new Uint32Array(data.buffer);
    for (let y = 0; y < height; y += 10)
      for (let x = 0; x < width; x += 16) {
        const word = Math.floor(random() * 2 ** 32);
        for (let v = y; v < y + 10; v++) words.fill(word, v * width + x, v * width + x + 16);
      }
    const found = both({ width, height, data }, '#ffffff', null);
    expectSame(found);
    expect(found.counted.counts.reduce((a, b) => a + b)).toBeGreaterThan(10_000);
  });

  test('200,000 colours by chance have the codes that the plain twin gives them', () => {
    const random = stream(78);
    const [width, height] = [500, 400];
    const data = Uint8Array.from({ length: width * height * 4 }, (_, i) =>
      i % 4 === 3 && random() < 0.7 ? 255 : Math.floor(random() * 256),
    );
    // Without a pure point about, each point's own code is what it gets.
    expectSame(both({ width, height, data }, '#ffffff', null));
  });
});
