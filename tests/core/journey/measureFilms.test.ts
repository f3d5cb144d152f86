import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { hashOf, inkFrom, type Job, newJob, placeArt } from '../../../core/job/index.ts';
import { measureFilms } from '../../../core/measureFilms.ts';
import { measureKey } from '../../../core/measureKey.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

/** 160 × 60 mm at the middle of the deck: a hairline of 0.3 mm up above, and a field with a slit of 0.4 mm below. */
const SVG = `<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="60mm" viewBox="0 0 160 60">
  <path d="M10 10h140v0.3h-140z" fill="#1b2440"/>
  <path d="M10 30h140v9.8h-140zM10 40.2h140v9.8h-140z" fill="#1b2440"/></svg>`;

async function drawn(): Promise<{ job: Job; art: Map<string, Uint8Array> }> {
  const codec = sharpCodec();
  const bytes = new TextEncoder().encode(SVG);
  const hash = hashOf(bytes);
  const probe = await codec.probe(bytes, 'lines.svg');
  if (!probe.ok) throw new Error(probe.reason);
  const blank = newJob({ name: 'Lines', deck: deckTemplate('popsicle-8.25')! });
  const placed = placeArt(
    blank,
    'bottom',
    {
      ...probe.value,
      name: 'lines.svg',
      hash,
      ground: null,
      widthPx: probe.value.widthPx as number,
      heightPx: probe.value.heightPx as number,
    },
    { fit: 'actual', wrap: 'surface', artDpi: null },
  );
  if (!placed.ok) throw new Error(placed.reason);
  const { job } = placed.value;
  const inks = [inkFrom({ name: 'Key', hex: '#1b2440' }, [])];
  return {
    job: {
      ...job,
      // Ten points a mm.
      printer: { ...job.printer, dpi: 254 },
      press: { ...job.press, compensateGrowth: false },
      faces: { ...job.faces, bottom: { ...job.faces.bottom, inks } },
    },
    art: new Map([[hash, bytes]]),
  };
}

test('the real film’s hairline and slit are measured and found where they were drawn', async () => {
  const { job, art } = await drawn();
  const made = await measureFilms({ job, art, codec: sharpCodec(), workers: inlineWorkers });
  if (!made.ok) throw new Error(made.reason);
  expect(made.value).toHaveLength(1);
  const [film] = made.value;
  if (!film) return;
  // To a point of the film, a tenth of a mm.
  expect(Math.abs((film.line ?? 0) - 0.3)).toBeLessThanOrEqual(0.1001);
  expect(Math.abs((film.gap ?? 0) - 0.4)).toBeLessThanOrEqual(0.1001);
  expect(film.inkedCm2).toBeCloseTo((140 * (0.3 + 19.6)) / 100, 0);
  const { box, columns, rows, lines, gaps } = film.fine;
  const piece = job.faces.bottom.art[0]!;
  const middles = (cells: Uint8Array): number[] =>
    [...cells.keys()]
      .filter((i) => cells[i] !== 0)
      .map((i) => box.y + box.height - ((Math.floor(i / columns) + 0.5) * box.height) / rows);
  // Drawn 10.15 mm below the art's top edge, and 40 mm; +t is up. Cells are 0.8 mm.
  for (const t of middles(lines)) expect(Math.abs(t - (piece.y + 30 - 10.15))).toBeLessThan(0.9);
  for (const t of middles(gaps)) expect(Math.abs(t - (piece.y + 30 - 40))).toBeLessThan(0.9);
  expect(middles(lines).length).toBeGreaterThan(150);
  expect(middles(gaps).length).toBeGreaterThan(150);
}, 120_000);

test('another mesh leaves the measured films as they are; another trap does not', async () => {
  const { job } = await drawn();
  const { bottom } = job.faces;
  const meshed = {
    ...job,
    faces: { ...job.faces, bottom: { ...bottom, inks: bottom.inks.map((i) => ({ ...i, meshPerCm: 43 })) } },
  };
  expect(measureKey(meshed)).toBe(measureKey(job));
  const trapped = { ...bottom, traps: { ...bottom.traps, width: 0.7 } };
  expect(measureKey({ ...job, faces: { ...job.faces, bottom: trapped } })).not.toBe(measureKey(job));
});
