import { expect, test } from 'vitest';
import { MM_PER_INCH } from '../../core/units/index.ts';
import {
  ART_DPI,
  GROUNDS,
  measureSwept,
  NEIGHBOURS,
  type Swept,
  sweepTable,
} from './separation/measureSweep.ts';

/**
 * Flat art drawn soft by librsvg at 72 to 600 dpi and separated to 600 dpi, against itself drawn hard at 600 dpi: points with one, two
 * and three pure colours about them, on transparent and on coloured ground. The targets are stated from 300 dpi on; the table tells the rest.
 */
const SEEDS = [0, 1];
/** From this resolution on a line of 0.3 mm is more than three points wide; and below this one its points are wider than the line. */
const STATED = 300;
const UNSURE = 90;
const JPEG = [60, 75, 90] as const;

test('soft art of 72 to 600 dpi keeps its inks and edges', async () => {
  const rows: Swept[] = [];
  for (const dpi of ART_DPI)
    for (const neighbours of NEIGHBOURS)
      for (const ground of GROUNDS) rows.push(await measureSwept(dpi, neighbours, ground, SEEDS));
  console.log(sweepTable(rows));
  for (const row of rows) {
    const name = `${row.dpi} dpi, ${row.neighbours} neighbours, ${row.ground ?? 'transparent'}`;
    if (row.neighbours === 1) expect(row.broken, name).toBe(0);
    // Three inks on coloured ground at 72 dpi: three shares and what of the ground shines through make four, and a point's colour
    // has three numbers; where the colours lie on one line, even fewer. A few film points are left.
    if (row.dpi < UNSURE && row.neighbours === 3 && row.ground)
      expect(row.films.falseShare, name).toBeLessThan(1e-5);
    else expect(row.films.falseInk, name).toBe(0);
    if (row.dpi < STATED) {
      // Edges of coarser art stay within a tenth of its points.
      expect(row.offMm / (MM_PER_INCH / row.dpi), name).toBeLessThan(0.1);
      continue;
    }
    expect(row.films.displacement, name).toBeLessThanOrEqual(0.35);
    expect(row.lost, name).toBe(0);
  }
}, 120_000);

test('JPEG of quality 60 and up keeps to its inks from 72 to 600 dpi', async () => {
  const lines: string[] = [];
  for (const dpi of ART_DPI) {
    const cells: string[] = [];
    for (const quality of JPEG) {
      const rows = await Promise.all(
        ([2, 3] as const).map((neighbours) => measureSwept(dpi, neighbours, '#d9c7a3', SEEDS, quality)),
      );
      const share = Math.max(...rows.map(({ films }) => films.falseShare));
      const off = Math.max(...rows.map(({ offMm }) => offMm));
      cells.push(`${(100 * share).toFixed(4)} %, ${off.toFixed(3)} mm`);
      const name = `${dpi} dpi, quality ${quality}`;
      expect(share, name).toBeLessThan(quality >= 75 && dpi >= STATED ? 1e-4 : 2e-3);
    }
    lines.push(`| ${dpi} | ${cells.join(' | ')} |`);
  }
  console.log(
    `${[`| art, dpi | ${JPEG.map((q) => `quality ${q}: false ink of area, edges off`).join(' | ')} |`, '|---:|---:|---:|---:|', ...lines].join('\n')}`,
  );
}, 180_000);
