import { expect, test } from 'vitest';
import { deltaE00, LINEAR_OF_BYTE, labOfLinear, linearOfHex } from '../../../core/colour/index.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { facePreview, faceProof } from '../../../core/facePreview.ts';
import { type FaceJob, hashOf, inkFrom, type Job, newJob, readJob } from '../../../core/job/index.ts';
import { layOutRequest } from '../../../core/layOutRequest.ts';
import {
  getBit,
  inkCount,
  intersect,
  isBlank,
  type Mask,
  type Picture,
  subtract,
} from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');
const codec = sharpCodec();

/** A grey ramp from black at the left to white at the right in even steps of light, 240 × 40, its last tenth clear. */
const ramp: Picture = (() => {
  const [width, height] = [240, 40];
  const data = new Uint8Array(width * height * 4);
  for (let i = 0; i < width * height; i++) {
    const light = (i % width) / 215;
    const byte = LINEAR_OF_BYTE.findIndex((v) => v >= Math.min(1, light) - 1e-12);
    data.set([byte, byte, byte, i % width < 216 ? 255 : 0], 4 * i);
  }
  return { width, height, data };
})();
const bytes = await codec.encodePng(ramp, 72);
const hash = hashOf(bytes);

/** The ramp 240 × 40 mm mid-deck on white wood in one opaque black ink (on a base where asked). */
function jobOf(more: Partial<FaceJob>, base = false): Job {
  const job = newJob({ name: 'Ramp', deck: deck as NonNullable<typeof deck> });
  const black = inkFrom({ name: 'Black', hex: '#000000', opacity: 1, needsBase: base ? 'all' : [] }, []);
  const white = inkFrom({ name: 'White', hex: '#ffffff', opacity: 1, role: 'base' }, [black]);
  const art = {
    id: 'ramp',
    name: 'ramp.png',
    hash,
    mediaType: 'image/png' as const,
    widthPx: 240,
    heightPx: 40,
    width: 240,
    height: 40,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface' as const,
    ground: null,
    hidden: false,
  };
  const settings = { ...job.faces.bottom, art: [art], inks: base ? [white, black] : [black], ...more };
  const veneers = [{ id: 'white', name: 'White', hex: base ? '#404040' : '#ffffff', decks: 1 }];
  return { ...job, veneers, faces: { ...job.faces, bottom: settings } };
}

async function masks(job: Job, dpi: number, count = 1) {
  const made = await faceMasks(job, 'bottom', dpi, 'surface', {
    art: new Map([[hash, bytes]]),
    codec,
    workers: { ...inlineWorkers, count },
  });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

/** Share of ink in the millimetres s0 to s1, t −15 to 15. */
function share(
  mask: Mask,
  raster: { box: { x: number; y: number; height: number }; dpi: number },
  s0: number,
  s1: number,
) {
  const scale = raster.dpi / 25.4;
  const x = (s: number) => Math.round((s - raster.box.x) * scale);
  const y = (t: number) => Math.round((raster.box.y + raster.box.height - t) * scale);
  let ink = 0;
  for (let py = y(15); py < y(-15); py++)
    for (let px = x(s0); px < x(s1); px++) if (getBit(mask, px, py)) ink++;
  return ink / ((y(-15) - y(15)) * (x(s1) - x(s0)));
}

for (const [method, more] of [
  ['index', { index: { dotMm: 0.25 } }],
  ['halftone', { halftone: { lpi: 40, dot: 'elliptical' } }],
  ['halftone', { halftone: { lpi: 50, dot: 'round' } }],
] as const)
  test(`${method} prints each tone of a ramp in light within 1 % of the art, through the whole path (${JSON.stringify(more)})`, async () => {
    const { separations, prints, raster } = await masks(jobOf({ method, ...more } as Partial<FaceJob>), 600);
    const [dots] = separations as [Mask];
    for (let mm = 10; mm < 200; mm += 20) {
      // The art is 1 mm a point; a point i shows light i / 215, its middle at i + 0.5 mm from the left.
      const asked = 1 - (mm + 4.5) / 215;
      expect(Math.abs(share(dots, raster, mm - 120, mm - 110) - asked)).toBeLessThan(0.01);
    }
    expect(share(dots, raster, 98, 118)).toBe(0);
    // Dots are not trapped, and no speck among them is dropped.
    expect(inkCount(prints[0] as Mask)).toBe(inkCount(dots));
  }, 60_000);

test('the wished dot is a square of whole points', async () => {
  const { separations, raster } = await masks(jobOf({ method: 'index', index: { dotMm: 0.5 } }), 254);
  const [dots] = separations as [Mask];
  // 0.5 mm at 254 dpi is five points; the grid of dots begins at the raster's top left corner.
  for (let y = 0; y < raster.height - 5; y += 5)
    for (let x = 0; x < raster.width - 5; x += 5) {
      const corner = getBit(dots, x, y);
      if (
        getBit(dots, x + 4, y) !== corner ||
        getBit(dots, x, y + 4) !== corner ||
        getBit(dots, x + 2, y + 2) !== corner
      )
        throw new Error(`The dot at ${x}, ${y} is broken.`);
    }
  expect(inkCount(dots) % 25).toBe(0);
}, 60_000);

test('a base lies solid beneath the dots, choked inside the art, and nothing of it beyond', async () => {
  for (const method of ['index', 'halftone'] as const) {
    const job = jobOf({ method }, true);
    const { separations, prints, raster } = await masks(job, 300);
    const [white, black] = prints as [Mask, Mask];
    expect(share(white, raster, -115, 90)).toBe(1);
    expect(share(white, raster, 98, 118)).toBe(0);
    expect(share(white, raster, -130, -119.9)).toBe(0);
    expect(isBlank(intersect(separations[0] as Mask, separations[1] as Mask))).toBe(true);
    // White shows light 0.5 where the ramp does: tones are mixed with the base and not with the dark wood.
    expect(Math.abs(share(black, raster, -17.5, -7.5) - 0.5)).toBeLessThan(0.015);
    expect(isBlank(subtract(separations[0] as Mask, white))).toBe(false);
  }
}, 60_000);

test('the work does not depend on how many parts are in the works at once', async () => {
  for (const method of ['index', 'halftone'] as const) {
    const one = await masks(jobOf({ method }, true), 200, 1);
    const four = await masks(jobOf({ method }, true), 200, 4);
    one.prints.forEach((mask, i) => {
      expect(Buffer.from(mask.data.buffer).equals(Buffer.from((four.prints[i] as Mask).data.buffer))).toBe(
        true,
      );
    });
  }
}, 60_000);

test('the preview shows the same tones, with a grain where dots are too small to be drawn', () => {
  for (const method of ['index', 'halftone'] as const)
    for (const dpi of [100, 300]) {
      const job = jobOf({ method });
      const made = facePreview({ job, face: 'bottom', pictures: new Map([[hash, ramp]]), dpi, traps: true });
      if (!made.ok) throw new Error(made.reason);
      const proof = faceProof({
        job,
        face: 'bottom',
        preview: made.value,
        veneerId: 'white',
        colourwayId: null,
      });
      let light = 0;
      const mid = Math.round(((0 - made.value.box.y) * dpi) / 25.4);
      const x0 = Math.round(((-17.5 - made.value.box.x) * dpi) / 25.4);
      const x1 = Math.round(((-7.5 - made.value.box.x) * dpi) / 25.4);
      for (let y = mid - 40; y < mid + 40; y++)
        for (let x = x0; x < x1; x++)
          light += LINEAR_OF_BYTE[proof.data[4 * (y * proof.width + x)] as number] as number;
      expect(Math.abs(light / (80 * (x1 - x0)) - 0.5)).toBeLessThan(0.02);
    }
});

test('labels say the ruling and angle that the dots really have; none for a base beneath them', async () => {
  const job = jobOf({ method: 'halftone', halftone: { lpi: 45, dot: 'round', angles: { black: 15 } } }, true);
  const asked = layOutRequest(job, await masks(job, 600));
  if (!asked.ok) throw new Error(asked.reason);
  const [white, black] = asked.value.films;
  expect(white?.screen).toBeUndefined();
  expect(black?.screen?.angleDeg).toBe(15);
  expect(Math.abs((black?.screen?.lpi ?? 0) - 45)).toBeLessThan(0.1);
}, 60_000);

test('a ruling too fine for the printer is refused in words, and so are layers for no ink', async () => {
  const tools = { art: new Map([[hash, bytes]]), codec, workers: inlineWorkers };
  const fine = jobOf({ method: 'halftone', halftone: { lpi: 150, dot: 'round' } });
  expect(await faceMasks(fine, 'bottom', 600, 'film', tools)).toMatchObject({ ok: false, kind: 'input' });
  expect(await faceMasks(jobOf({ method: 'layered' }), 'bottom', 100, 'film', tools)).toMatchObject({
    ok: false,
  });
});

test('a job keeps its screens, and one without them is read as before', () => {
  const job = jobOf({ method: 'halftone', halftone: { lpi: 35, dot: 'line', angles: { black: 45 } } });
  const read = readJob(JSON.parse(JSON.stringify(job)));
  expect(read.ok && read.value.faces.bottom.halftone).toEqual({
    lpi: 35,
    dot: 'line',
    angles: { black: 45 },
  });
  const old = readJob(JSON.parse(JSON.stringify(jobOf({}))));
  expect(old.ok && old.value.faces.bottom.halftone).toBeUndefined();
});

test('a mid grey on warm wood is mixed from the wood too', async () => {
  const job = {
    ...jobOf({ method: 'index' }),
    veneers: [{ id: 'm', name: 'Maple', hex: '#dcb98a', decks: 3 }],
  };
  const { separations, raster } = await masks(job, 300);
  const wood = linearOfHex('#dcb98a');
  const grey = labOfLinear([(80 + 4.5) / 215, (80 + 4.5) / 215, (80 + 4.5) / 215]);
  // Tried by hand for one ink that is black: how far wood, a share of it black, looks from the grey (CIE 142).
  const off = (black: number) =>
    deltaE00(labOfLinear([wood[0] * (1 - black), wood[1] * (1 - black), wood[2] * (1 - black)]), grey);
  const least = Math.min(...Array.from({ length: 500 }, (_, i) => off(i / 500)));
  const printed = share(separations[0] as Mask, raster, -40, -30);
  expect(printed).toBeGreaterThan(0.2);
  expect(off(printed)).toBeLessThan(least + 0.4);
}, 60_000);
