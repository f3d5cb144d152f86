import { expect, test } from 'vitest';
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
/** From this resolution on a line of 0.3 mm is more than three points wide. */
const STATED = 300;

test('soft art of 72 to 600 dpi keeps its inks and edges', async () => {
  const rows: Swept[] = [];
  for (const dpi of ART_DPI)
    for (const neighbours of NEIGHBOURS)
      for (const ground of GROUNDS) rows.push(await measureSwept(dpi, neighbours, ground, SEEDS));
  console.log(sweepTable(rows));
  for (const row of rows) {
    const name = `${row.dpi} dpi, ${row.neighbours} neighbours, ${row.ground ?? 'transparent'}`;
    if (row.dpi < STATED) continue;
    expect(row.films.falseInk, name).toBe(0);
    expect(row.films.displacement, name).toBeLessThanOrEqual(0.35);
    expect(row.lost, name).toBe(0);
    if (row.neighbours === 1) expect(row.broken, name).toBe(0);
  }
}, 120_000);
