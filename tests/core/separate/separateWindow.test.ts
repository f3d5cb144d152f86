import { expect, test } from 'vitest';
import { inkCount, type Picture } from '../../../core/raster/index.ts';
import {
  GRAINY_MARGIN_PX,
  isGrainy,
  SEPARATE_MARGIN_PX,
  separateWindow,
  unplannedOf,
  unplannedTally,
} from '../../../core/separate/index.ts';
import { drawFlatArt, random, svgOf } from '../../reference/separation/flatArt.ts';
import { filmsOf, render, throughJpeg } from '../../reference/separation/measure.ts';

const INKS = [{ hex: '#ffff00' }, { hex: '#000000' }, { hex: '#808000' }];

/** A picture from rows of letters: y yellow, k black, o olive, e half yellow half black, w white, . clear. */
function pictureOf(rows: readonly string[]): Picture {
  const colours: Record<string, readonly number[]> = {
    y: [255, 255, 0, 255],
    k: [0, 0, 0, 255],
    o: [128, 128, 0, 255],
    e: [128, 128, 0, 255],
    w: [255, 255, 255, 255],
    '.': [0, 0, 0, 0],
    h: [255, 255, 0, 128],
  };
  const width = rows[0]!.length;
  const data = Uint8Array.from(rows.flatMap((row) => [...row].flatMap((c) => [...colours[c]!])));
  return { width, height: rows.length, data };
}

test('a soft edge between two inks is their mix, though a third ink has exactly its colour', () => {
  const { planes } = separateWindow(pictureOf(Array(7).fill('yyyyekkkk')), { inks: INKS, ground: null });
  const at = 3 * 9 + 4;
  expect(planes.map((p) => p[at])).toEqual([0, 128, 127, 0]);
  expect(planes[3]!.every((v) => v === 0)).toBe(true);
});

test('an area of that third ink is that ink', () => {
  const { planes } = separateWindow(pictureOf(Array(7).fill('yyyooookkk')), { inks: INKS, ground: null });
  expect([...planes[3]!.slice(30, 40)]).toEqual([0, 0, 0, 255, 255, 255, 255, 0, 0, 0]);
});

test('transparent is bare, half transparent half bare, and paper is bare when it is the ground', () => {
  const clear = separateWindow(pictureOf(Array(7).fill('yyyyh....')), { inks: INKS, ground: null }).planes;
  expect([...clear[0]!.slice(27, 36)]).toEqual([0, 0, 0, 0, 127, 255, 255, 255, 255]);
  const paper = separateWindow(pictureOf(Array(7).fill('yyyyywwww')), {
    inks: INKS,
    ground: '#ffffff',
  }).planes;
  expect([...paper[0]!.slice(27, 36)]).toEqual([0, 0, 0, 0, 0, 255, 255, 255, 255]);
});

test('a line one point wide stays, whole, in its own ink', () => {
  const rows = Array(9).fill('wwwwkwwww');
  const { planes } = separateWindow(pictureOf(rows), { inks: INKS, ground: '#ffffff' });
  for (let y = 0; y < 9; y++)
    expect([...planes[2]!.slice(y * 9, y * 9 + 9)]).toEqual([0, 0, 0, 0, 255, 0, 0, 0, 0]);
});

test('a flat colour that no ink is near takes the nearest ink and is reported', () => {
  const unplanned = unplannedTally();
  const blue = { width: 8, height: 8, data: Uint8Array.from(Array(64).fill([200, 190, 60, 255]).flat()) };
  const { planes } = separateWindow(blue, { inks: INKS, ground: null }, { unplanned });
  expect(planes[1]!.every((v) => v === 255)).toBe(true);
  expect(unplannedOf(unplanned)).toEqual([{ hex: '#c8be3c', share: 1 }]);
});

test('every point sums to 255, on noise, on one point, on a strip, with no inks', () => {
  const rnd = random(3);
  for (const [width, height] of [
    [1, 1],
    [1, 9],
    [9, 1],
    [40, 30],
  ] as const)
    for (const inks of [[], INKS]) {
      const data = Uint8Array.from({ length: width * height * 4 }, () => Math.floor(rnd() * 256));
      const { planes } = separateWindow({ width, height, data }, { inks, ground: null });
      for (let i = 0; i < width * height; i++) expect(planes.reduce((n, p) => n + p[i]!, 0)).toBe(255);
    }
});

test('an ink that the art does not have gets no point by mixing', async () => {
  const art = drawFlatArt(2);
  const soft = await render(svgOf(art, false, 480));
  // Halfway between two inks that meet all over the drawing, and far from every ink.
  const inks = [...art.inks, '#c0c000'];
  expect(inkCount(filmsOf(soft, inks, art.ground, 2).at(-1)!)).toBe(0);
});

test('tiles with their margin equal the whole, drawn art and JPEG alike', async () => {
  const art = drawFlatArt(5);
  const drawn = await render(svgOf(art, false, 480));
  for (const whole of [drawn, await throughJpeg(drawn, 75, '#ffffff')]) {
    const palette = { inks: art.inks.map((hex) => ({ hex })), ground: '#ffffff' };
    const grainy = isGrainy(whole);
    const all = separateWindow(whole, palette, { grainy, coarse: true });
    const m = grainy ? GRAINY_MARGIN_PX : SEPARATE_MARGIN_PX;
    const [x0, y0, w, h] = [150, 130, 120, 100];
    const width = w + 2 * m;
    const data = new Uint8Array(width * (h + 2 * m) * 4);
    for (let y = 0; y < h + 2 * m; y++) {
      const from = ((y0 - m + y) * whole.width + x0 - m) * 4;
      data.set(whole.data.subarray(from, from + width * 4), y * width * 4);
    }
    const tile = separateWindow({ width, height: h + 2 * m, data }, palette, { grainy, coarse: true });
    all.planes.forEach((plane, k) => {
      for (let y = 0; y < h; y++) {
        const there = plane.subarray((y0 + y) * whole.width + x0, (y0 + y) * whole.width + x0 + w);
        const here = tile.planes[k]!.subarray((y + m) * width + m, (y + m) * width + m + w);
        expect([...here], `plane ${k}, row ${y}`).toEqual([...there]);
      }
    });
  }
});

test('drawn art is told from compressed art', async () => {
  for (const seed of [0, 3, 9, 13]) {
    const drawn = await render(svgOf(drawFlatArt(seed), false, 480));
    expect(isGrainy(drawn), `drawing ${seed}`).toBe(false);
    for (const quality of [95, 75, 60])
      expect(isGrainy(await throughJpeg(drawn, quality, '#ffffff')), `quality ${quality}`).toBe(true);
  }
});
