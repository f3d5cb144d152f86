import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { facePreview } from '../../../core/facePreview.ts';
import { faceWindow } from '../../../core/faceWindow.ts';
import { type FaceJob, hashOf, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { crop, getBit, inkCount, intersect, type Mask, subtract } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { pxPerMm } from '../../../core/units/index.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

const codec = sharpCodec();
const KEY = '#14110f';
/** A blend from yellow to red 160 × 80 mm with black line work over it: a frame 3 mm wide and a line of 0.4 mm. */
const ART = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 160 80"><defs><linearGradient id="g">
<stop offset="0" stop-color="#f4c430"/><stop offset="1" stop-color="#c03a20"/></linearGradient></defs>
<rect width="160" height="80" fill="url(#g)"/><rect x="20" y="20" width="120" height="40" fill="none" stroke="${KEY}" stroke-width="3"/>
<path d="M5 40 H155" stroke="${KEY}" stroke-width="0.4"/></svg>`;
const file = new TextEncoder().encode(ART);
const hash = hashOf(file);
const { data, info } = await sharp(Buffer.from(ART), { density: 96 * 12 })
  .resize(1920, 960)
  .ensureAlpha()
  .raw()
  .toBuffer({ resolveWithObject: true });
const pictures = new Map([[hash, { width: info.width, height: info.height, data: Uint8Array.from(data) }]]);

function jobOf(more: Partial<FaceJob>, split: 'spot' | undefined = 'spot'): Job {
  const job = newJob({ name: 'Mixed', deck: deckTemplate('popsicle-8.25')! });
  const yellow = inkFrom({ name: 'Yellow', hex: '#f4c430' }, []);
  const red = inkFrom({ name: 'Red', hex: '#c03a20' }, [yellow]);
  const key = { ...inkFrom({ name: 'Key', hex: KEY }, [yellow, red]), split };
  const art = {
    id: 'a',
    name: 'blend.svg',
    hash,
    mediaType: 'image/svg+xml' as const,
    widthPx: 160,
    heightPx: 80,
    width: 160,
    height: 80,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface' as const,
    ground: null,
    hidden: false,
  };
  const bottom = { ...job.faces.bottom, art: [art], inks: [yellow, red, key], ...more };
  return { ...job, faces: { ...job.faces, bottom } };
}

async function masks(job: Job, dpi: number) {
  const tools = { art: new Map([[hash, file]]), codec, workers: inlineWorkers };
  const made = await faceMasks(job, 'bottom', dpi, 'surface', tools);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

/** Area of the line work, mm²: the frame's outer less its inner rectangle, and the thin line where it is not the frame. */
const LINES = 123 * 43 - 117 * 37 + 0.4 * (150 - 6);

describe.each(['halftone', 'index'] as const)('a sharp key over %s', (method) => {
  test('holds just the lines, whole; tones run under them by the trap and no farther', async () => {
    const { separations, prints } = await masks(jobOf({ method }), 600);
    const [yellow, red, key] = separations as [Mask, Mask, Mask];
    const mm2 = pxPerMm(600) ** 2;
    expect(Math.abs(inkCount(key) / mm2 / LINES - 1)).toBeLessThan(0.02);
    expect(inkCount(prints[2] as Mask)).toBe(inkCount(key));
    // The dots show only beside the lines, and print a little way under them.
    expect(inkCount(intersect(key, yellow)) + inkCount(intersect(key, red))).toBe(0);
    const under = inkCount(intersect(prints[0] as Mask, key)) + inkCount(intersect(prints[1] as Mask, key));
    // Half a millimetre and a sample of tone at each side of 3 mm, and all of the thin line.
    expect(under / inkCount(key)).toBeGreaterThan(0.3);
    expect(under / inkCount(key)).toBeLessThan(0.75);
  }, 120_000);

  test('beside the lines there is no dark fringe in the tones: as much ink as without them', async () => {
    const lined = await masks(jobOf({ method }), 600);
    const key = lined.separations[2] as Mask;
    const { box } = lined.raster;
    // A strip 1 mm wide along the frame's long upper side, just outside it, and one 6 mm off.
    const strip = (mask: Mask, t: number) => {
      const scale = pxPerMm(600);
      const x = Math.round((-50 - box.x) * scale);
      const y = Math.round((box.y + box.height - t) * scale);
      return inkCount(crop(mask, x, y, Math.round(100 * scale), Math.round(scale))) / (100 * scale * scale);
    };
    for (const ink of [0, 1]) {
      const mask = lined.separations[ink] as Mask;
      expect(Math.abs(strip(mask, 22.6) - strip(mask, 30))).toBeLessThan(0.02);
    }
    expect(strip(key, 22.6)).toBe(0);
  }, 120_000);

  test('without the choice the same ink is dots, as before', async () => {
    const { separations } = await masks(jobOf({ method }, undefined), 300);
    const dots = separations[2] as Mask;
    let changes = 0;
    for (let x = 1; x < dots.width; x++)
      if (getBit(dots, x, dots.height >> 1) !== getBit(dots, x - 1, dots.height >> 1)) changes++;
    expect(changes).toBeGreaterThan(0);
  }, 60_000);
});

test('the loupe shows tones as the whole face has them: screens and even grain dot for dot, line work in place', () => {
  for (const more of [
    { method: 'halftone' },
    { method: 'index', index: { dotMm: 0.25, dither: 'blue-noise' } },
  ] as const) {
    const job = jobOf(more);
    const whole = facePreview({ job, face: 'bottom', pictures, dpi: 300, traps: true });
    if (!whole.ok) throw new Error(whole.reason);
    for (const [x, y] of [
      [-63, 14],
      [12.3, -4.7],
    ] as const) {
      const seen = faceWindow({
        job,
        face: 'bottom',
        pictures,
        dpi: 300,
        window: { x, y, width: 9, height: 9 },
      });
      if (!seen.ok) throw new Error(seen.reason);
      const { box, width, height } = seen.value;
      const scale = pxPerMm(300);
      const left = Math.round((box.x - whole.value.box.x) * scale);
      const top = Math.round((whole.value.box.y + whole.value.box.height - box.y - box.height) * scale);
      for (const [i, mask] of seen.value.prints.entries()) {
        const there = crop(whole.value.prints[i] as Mask, left, top, width, height);
        const other = inkCount(subtract(mask, there)) + inkCount(subtract(there, mask));
        expect(other).toBeLessThan(0.015 * width * height);
      }
      expect(seen.value.prints.reduce((sum, mask) => sum + inkCount(mask), 0)).toBeGreaterThan(1000);
    }
  }
}, 60_000);

test('diffused index dots show in the loupe too, in the same measure', () => {
  const job = jobOf({ method: 'index' });
  const whole = facePreview({ job, face: 'bottom', pictures, dpi: 300, traps: true });
  const seen = faceWindow({
    job,
    face: 'bottom',
    pictures,
    dpi: 300,
    window: { x: -30, y: 5, width: 12, height: 8 },
  });
  if (!whole.ok || !seen.ok) throw new Error('refused');
  const { box, width, height } = seen.value;
  const scale = pxPerMm(300);
  const left = Math.round((box.x - whole.value.box.x) * scale);
  const top = Math.round((whole.value.box.y + whole.value.box.height - box.y - box.height) * scale);
  for (const i of [0, 1]) {
    const there = crop(whole.value.prints[i] as Mask, left, top, width, height);
    const all = width * height;
    expect(Math.abs(inkCount(seen.value.prints[i] as Mask) - inkCount(there)) / all).toBeLessThan(0.02);
  }
}, 60_000);

test('even grain gives each ink its share within 1 %, and no diffusion’s worms', async () => {
  const more = { method: 'index', index: { dotMm: 0.25, dither: 'blue-noise' } } as const;
  const even = await masks(jobOf(more), 300);
  const diffused = await masks(jobOf({ method: 'index' }), 300);
  const all = 160 * 80 * pxPerMm(300) ** 2;
  for (const i of [0, 1])
    expect(
      Math.abs(inkCount(even.separations[i] as Mask) - inkCount(diffused.separations[i] as Mask)) / all,
    ).toBeLessThan(0.01);
  expect(inkCount(intersect(even.separations[0] as Mask, even.separations[1] as Mask))).toBe(0);
}, 60_000);
