import { expect, test } from 'vitest';
import { components, dropSpecks } from '../../core/raster/index.ts';
import { MM_PER_INCH } from '../../core/units/index.ts';
import { drawFlatArt, svgOf } from './separation/flatArt.ts';
import {
  boxInLight,
  filmsOf,
  type Measured,
  measure,
  render,
  throughJpeg,
  truthOf,
} from './separation/measure.ts';
import { SPECK } from './separation/measureOutside.ts';

/**
 * Flat art rendered with soft edges at 300 dpi and separated to 600 dpi, against the same art rendered with hard edges at
 * 600 dpi by the same renderer (librsvg, through sharp): the truth comes from outside this project.
 */
const SEEDS = Array.from({ length: 20 }, (_, i) => i);
const WIDTH = 480;

interface Row {
  readonly name: string;
  readonly values: Measured;
}
const show = (title: string, rows: readonly Row[]) => {
  const lines = rows.map(
    ({ name, values: v }) =>
      `${name.padEnd(16)} ${String(v.falseInk).padStart(6)} ${(v.falseShare * 100).toFixed(4).padStart(9)} % ${v.displacement.toFixed(3).padStart(8)} ${(v.wrongShare * 100).toFixed(3).padStart(8)} %`,
  );
  console.log([title, `${'art'.padEnd(16)}  false  of area   displaced  wrong`, ...lines].join('\n'));
};
const mean = (rows: readonly Row[], of: (m: Measured) => number) =>
  rows.reduce((sum, r) => sum + of(r.values), 0) / rows.length;

test('soft edges become hard ones where they were drawn, and no ink appears that is not there', async () => {
  const rows: Row[] = [];
  for (const seed of SEEDS) {
    const art = drawFlatArt(seed);
    const soft = await render(svgOf(art, false, WIDTH));
    const hard = await render(svgOf(art, true, WIDTH * 2));
    const films = filmsOf(soft, art.inks, art.ground, 2);
    rows.push({
      name: art.name,
      values: measure(films, truthOf(hard, art.inks), hard.width as number, hard.height as number),
    });
  }
  show('300 dpi, antialiased', rows);
  for (const { name, values } of rows) {
    expect(values.falseInk, name).toBe(0);
    expect(values.displacement, name).toBeLessThanOrEqual(0.35);
  }
});

for (const [quality, most, each] of [
  [90, 0.0001, 0.0001],
  [75, 0.0001, 0.0001],
  // The target is stated from quality 75, and for every drawing; below it, this keeps what is reached.
  [60, 0.0003, 0.001],
] as const)
  test(`JPEG at quality ${quality} keeps to its inks`, async () => {
    const rows: Row[] = [];
    for (const seed of SEEDS) {
      const art = drawFlatArt(seed);
      const paper = art.ground ?? '#cfe8ff';
      const soft = await throughJpeg(await render(svgOf(art, false, WIDTH)), quality, paper);
      const hard = await render(svgOf(art, true, WIDTH * 2));
      const films = filmsOf(soft, art.inks, paper, 2).map((film) => dropSpecks(film, SPECK).mask);
      rows.push({
        name: art.name,
        values: measure(films, truthOf(hard, art.inks), hard.width as number, hard.height as number),
      });
    }
    show(`300 dpi, JPEG quality ${quality}, specks dropped`, rows);
    expect(mean(rows, (m) => m.falseShare)).toBeLessThanOrEqual(most);
    for (const { name, values } of rows) expect(values.falseShare, name).toBeLessThanOrEqual(each);
  });

test('lines of 0.3 mm stay whole in any direction, dark on light and light on dark', async () => {
  const px = 300 / MM_PER_INCH;
  for (const [line, ground] of [
    ['#1b2440', '#f2b632'],
    ['#f2b632', '#1b2440'],
    ['#e8613c', '#f2b632'],
  ] as const)
    for (let degrees = 0; degrees < 180; degrees += 11) {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="200"><rect width="200" height="200" fill="${ground}"/><g transform="translate(100.3 99.6) rotate(${degrees})"><rect x="-70" y="${-0.15 * px}" width="140" height="${0.3 * px}" fill="${line}"/></g></svg>`;
      const film = filmsOf(await render(svg), [ground, line], null, 2)[1]!;
      expect(components(film), `${line} at ${degrees}°`).toHaveLength(1);
      const area = 280 * 0.6 * px;
      expect(Math.abs(components(film)[0]!.area / area - 1), `${line} at ${degrees}°`).toBeLessThan(0.06);
    }
});

test('edges mixed in light, as a camera does, move little even when taken for encoded ones', async () => {
  const moved: number[] = [];
  for (const blend of ['encoded', 'linear'] as const) {
    let sum = 0;
    for (const seed of SEEDS.slice(0, 8)) {
      const art = drawFlatArt(seed);
      const big = await render(svgOf(art, true, WIDTH * 4));
      const soft = boxInLight(big, 4);
      const hard = await render(svgOf(art, true, WIDTH * 2));
      const films = filmsOf(soft, art.inks, art.ground, 2, { blend });
      sum +=
        measure(films, truthOf(hard, art.inks), hard.width as number, hard.height as number).displacement / 8;
    }
    moved.push(sum);
  }
  console.log(
    `edges mixed in light: taken as encoded ${moved[0]!.toFixed(3)}, as light ${moved[1]!.toFixed(3)} film points`,
  );
  expect(moved[0]).toBeLessThanOrEqual(0.35);
  expect(moved[1]).toBeLessThanOrEqual(moved[0]!);
});
