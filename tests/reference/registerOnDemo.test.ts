import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { facePreview } from '../../core/facePreview.ts';
import { type Job, newJob, placeArt, readJob } from '../../core/job/index.ts';
import { printAll } from '../../core/printInk.ts';
import { blankMask, type Mask, union } from '../../core/raster/index.ts';
import { type PullError, registerCurve, showRegister } from '../../core/trap/index.ts';

const demo = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../build/demo/${name}`, import.meta.url)));

/** 0.15 mm a point: coarse, but the same for every figure compared here. */
const DPI = 170;
const TOLERANCE = 0.5;
const STILL: PullError = { dx: 0, dy: 0, turnRad: 0 };

/** The demonstration's bottom with its inks, at `DPI`. */
async function demoFace() {
  const scenario = JSON.parse(demo('scenario.json').toString());
  const blank = newJob({ name: 'Demonstration', deck: deckTemplate(scenario.deckTemplate)! });
  const bottom = { ...blank.faces.bottom, ...scenario.faces.bottom, art: [] };
  const read = readJob({
    ...blank,
    veneers: scenario.veneers,
    colourways: scenario.colourways,
    faces: { ...blank.faces, bottom },
  });
  if (!read.ok) throw new Error(read.reason);
  const svg = demo('night-heron.svg');
  const { data, info } = await sharp(svg, { density: 110, limitInputPixels: false, unlimited: true })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const hash = 'a'.repeat(64);
  const placed = placeArt(
    read.value,
    'bottom',
    {
      name: 'night-heron.svg',
      hash,
      mediaType: 'image/svg+xml',
      widthPx: info.width,
      heightPx: info.height,
      stated: null,
      ground: null,
    },
    { fit: 'cover', wrap: 'surface', artDpi: null },
  );
  if (!placed.ok) throw new Error(placed.reason);
  const job: Job = placed.value.job;
  const picture = { width: info.width, height: info.height, data: new Uint8Array(data) };
  const made = facePreview({
    job,
    face: 'bottom',
    pictures: new Map([[hash, picture as never]]),
    dpi: DPI,
    traps: false,
  });
  if (!made.ok) throw new Error(made.reason);
  return { settings: job.faces.bottom, separations: made.value.separations };
}

test('what register error does to the demonstration, with traps and without', async () => {
  const { settings, separations } = await demoFace();
  const wanted = blankMask(separations[0]!.width, separations[0]!.height);
  for (const mask of separations) union(wanted, mask, wanted);
  const base = { place: settings.inks.findIndex((ink) => ink.role === 'base'), own: separations[0]! };
  expect(base.place).toBe(0);
  const printsAt = (width: number): Mask[] =>
    printAll(separations, { ...settings, traps: { ...settings.traps, width } }, DPI);

  const worst = (prints: readonly Mask[]) => {
    let most = 0;
    for (let pull = 0; pull < prints.length; pull++)
      for (let way = 0; way < 16; way++) {
        const errors = prints.map(() => STILL);
        const turn = (way * Math.PI) / 8;
        errors[pull] = { dx: TOLERANCE * Math.cos(turn), dy: TOLERANCE * Math.sin(turn), turnRad: 0 };
        const shown = showRegister(prints, wanted, errors, { toleranceMm: TOLERANCE, dpi: DPI, base });
        most = Math.max(most, shown.woodMm2);
      }
    return most;
  };
  // Two points beyond the error, for the raster's rounding of widths and of offsets.
  const ample = TOLERANCE + (2 * 25.4) / DPI;
  const [trapped, butted] = [worst(printsAt(ample)), worst(printsAt(0))];
  console.log(
    `One pull off by ${TOLERANCE} mm, worst of 16 directions: ${butted.toFixed(0)} mm² of bare wood butted, ${trapped.toFixed(1)} mm² with traps of ${ample.toFixed(2)} mm.`,
  );
  expect(butted).toBeGreaterThan(500);
  // Nothing but rounding of whole points where three inks meet.
  expect(trapped).toBeLessThan(1);

  const { points, recommendedMm } = registerCurve({
    wanted,
    printsAt,
    widthsMm: [0, 0.25, 0.5, 0.75, 1],
    limit: { areaMm2: butted / 5 },
    toleranceMm: TOLERANCE,
    trials: 60,
    seed: 24,
    dpi: DPI,
    base,
  });
  for (const { widthMm, areaMm2, widestMm } of points)
    console.log(
      `Trap ${widthMm} mm: gap area ${areaMm2.p50.toFixed(0)} mm² (95th percentile ${areaMm2.p95.toFixed(0)}), widest ${widestMm.p95.toFixed(2)} mm.`,
    );
  expect(points[2]!.areaMm2.p95).toBeLessThan(points[0]!.areaMm2.p95 / 5);
  expect(recommendedMm).toBeGreaterThan(0);
});
