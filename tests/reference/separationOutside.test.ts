import { expect, test } from 'vitest';
import { measureOutside, nameOf, outsideMeans, outsideTable, TARGET } from './separation/measureOutside.ts';
import { outsideArt } from './separation/outsideArt.ts';

/**
 * Flat art that this project did not draw, soft at 300 dpi and separated to 600 dpi, against the same art drawn hard at 600 dpi
 * by the same renderer. All pieces once without loss; a quarter of them larger and through JPEG, which `npm run bench separation`
 * does with all, and at a third of the size.
 */
const EVERY = 4;
/** Points a side: 40 mm at 300 dpi. */
const PX = 480;
/** The same for all of the pieces: 27 mm. */
const SMALLER = 320;

test('every one of over forty pieces by others keeps its inks, its edges and its lines; the table names their licences', async () => {
  const all = outsideArt();
  expect(all.length).toBeGreaterThanOrEqual(40);
  const rows = [];
  for (const piece of all) rows.push(await measureOutside({ ...piece, name: nameOf(piece) }, SMALLER, []));
  console.log(outsideTable(rows, []));
  for (const { name, soft, broken, suggested } of rows) {
    expect(soft.falseInk, name).toBe(0);
    expect(soft.displacement, name).toBeLessThanOrEqual(TARGET.displacement);
    expect(broken, name).toBe(0);
    expect(suggested, name).toBe(true);
  }
}, 120_000);

test('art by others keeps its inks, its edges and its lines, also through JPEG', async () => {
  const rows = [];
  for (const piece of outsideArt().filter((_, i) => i % EVERY === 0))
    rows.push(await measureOutside({ ...piece, name: nameOf(piece) }, PX));
  console.log(outsideTable(rows));
  for (const { name, soft, broken, suggested, jpeg } of rows) {
    expect(soft.falseInk, name).toBe(0);
    expect(soft.displacement, name).toBeLessThanOrEqual(TARGET.displacement);
    expect(broken, name).toBe(0);
    expect(suggested, name).toBe(true);
    expect(jpeg[0]!.falseShare, name).toBeLessThanOrEqual(TARGET.jpeg75);
  }
  // What is reached on all pieces, and some room.
  const means = outsideMeans(rows);
  expect(means.displacement).toBeLessThanOrEqual(0.1);
  expect(means.jpeg[1]).toBeLessThanOrEqual(0.0001);
}, 120_000);
