import { expect, test } from 'vitest';
import { type DroppedSpeck, finishFace } from '../../../core/finishFace.ts';
import { finishOnThreads } from '../../../core/finishOnThreads.ts';
import { blankMask, getBit, type Mask, setBit } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { stream } from '../raster/randomMask.ts';

const AROUND = [-1, 0, 1].flatMap((dy) => [-1, 0, 1].map((dx) => [dx, dy] as const));

/** Ink of every point, −1 for bare, from the definition: the inks one after the other, then bare, each piece where it then is. */
function byDefinition(art: number[], may: boolean[], width: number, smallest: number, inks: number) {
  const ink = art.map((v, i) => (may[i] ? v : -1));
  const dropped: DroppedSpeck[] = [];
  const inside = (x: number, y: number) => x >= 0 && x < width && y >= 0 && y * width < ink.length;
  for (const own of [...Array.from({ length: inks }, (_, i) => i), -1]) {
    const at = ink.map((v, i) => v === own && (own >= 0 || may[i]!));
    const seen = new Set<number>();
    for (let start = 0; start < ink.length; start++) {
      if (!at[start] || seen.has(start)) continue;
      const piece = [start];
      seen.add(start);
      for (let k = 0; k < piece.length; k++)
        for (const [dx, dy] of AROUND) {
          const [x, y] = [(piece[k]! % width) + dx, Math.floor(piece[k]! / width) + dy];
          const i = y * width + x;
          if (!inside(x, y) || !at[i] || seen.has(i)) continue;
          seen.add(i);
          piece.push(i);
        }
      if (piece.length >= smallest) continue;
      const votes = new Map<number, number>();
      for (const i of piece)
        for (const [dx, dy] of AROUND) {
          const [x, y] = [(i % width) + dx, Math.floor(i / width) + dy];
          if (dx * dy !== 0 || !inside(x, y) || piece.includes(y * width + x)) continue;
          votes.set(ink[y * width + x]!, (votes.get(ink[y * width + x]!) ?? 0) + 1);
        }
      const to = [...votes].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0] ?? -1;
      if (own < 0 && to < 0) continue;
      for (const i of piece) ink[i] = to;
      dropped.push({ ink: own, areaPx: piece.length, x: start % width, y: Math.floor(start / width) });
    }
  }
  return { ink, dropped };
}

test('specks and holes go to what surrounds them most, as defined point by point, with one thread’s work or several’s', async () => {
  const next = stream(17);
  let [all, chained, most] = [0, 0, 0];
  for (let round = 0; round < 60; round++) {
    // Every twelfth is large and full of single points.
    const large = round % 12 === 0 ? 4 : 1;
    const [width, height, inks] = [
      8 + Math.floor(next() * 60 * large),
      6 + Math.floor(next() * 30 * large),
      3,
    ];
    const smallest = 2 + Math.floor(next() * 6);
    const art: number[] = new Array(width * height).fill(large > 1 ? 0 : -1);
    for (let n = 0; n < 4 + (width * height) / 14; n++) {
      const ink = Math.floor(next() * (inks + 1)) - 1;
      const [x, y] = [Math.floor(next() * width), Math.floor(next() * height)];
      const [w, h] = large > 1 ? [1, 1] : [1 + Math.floor(next() * 5), 1 + Math.floor(next() * 4)];
      for (let v = y; v < Math.min(height, y + h); v++)
        for (let u = x; u < Math.min(width, x + w); u++) art[v * width + u] = ink;
    }
    const may = art.map((_, i) => (i % width) + Math.floor(i / width) > 4);
    const masksOf = (): Mask[] =>
      Array.from({ length: inks }, (_, k) => {
        const mask = blankMask(width, height);
        for (const [i, v] of art.entries()) if (v === k) setBit(mask, i % width, Math.floor(i / width), true);
        return mask;
      });
    const printable = blankMask(width, height);
    for (const [i, v] of may.entries()) if (v) setBit(printable, i % width, Math.floor(i / width), true);
    const truth = byDefinition(art, may, width, smallest, inks);
    const plain = masksOf();
    const threads = masksOf();
    const dropped = finishFace(plain, printable, smallest);
    expect(
      await finishOnThreads(threads, printable, smallest, [], { workers: inlineWorkers, codec: {} }),
    ).toEqual(dropped);
    // A piece is named by its first point, which a later ink's own count may share; order within an ink is reading order.
    expect(dropped).toEqual(truth.dropped);
    for (const masks of [plain, threads])
      expect(
        truth.ink.map((_, i) => masks.findIndex((mask) => getBit(mask, i % width, Math.floor(i / width)))),
      ).toEqual(truth.ink);
    all += dropped.length;
    most = Math.max(most, dropped.filter(({ ink }) => ink < 0).length);
    chained += finishFace(masksOf(), printable, smallest, [true]).length === dropped.length ? 0 : 1;
  }
  expect(all).toBeGreaterThan(250);
  expect(most).toBeGreaterThan(100);
  expect(chained).toBeGreaterThan(10);
});
