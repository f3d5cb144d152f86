import sharp from 'sharp';
import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { facePreview } from '../../../core/facePreview.ts';
import {
  type Art,
  artPxPerMm,
  type FaceJob,
  hashOf,
  inkFrom,
  type Job,
  newJob,
} from '../../../core/job/index.ts';
import { inkCount, type Mask, type Picture, subtract } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

const deck = deckTemplate('popsicle-8.25')!;
const codec = sharpCodec();
const DPI = 120;

/** Blobs of two inks on clear ground, 400 × 200, none of them the same left and right or up and down. */
const svg = Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" width="400" height="200">
  <circle cx="120" cy="70" r="62" fill="#e8613c"/><path d="M180 190 300 20l90 150z" fill="#1b2440"/>
  <path d="M20 120h120v60H20z" fill="#1b2440"/></svg>`);
const whole = await sharp(svg).png().toBuffer();
const cut = await sharp(whole).extract({ left: 100, top: 40, width: 220, height: 130 }).png().toBuffer();

const piece = (bytes: Uint8Array, over: Partial<Art>): Art => ({
  id: 'blobs',
  name: 'blobs.png',
  hash: hashOf(bytes),
  mediaType: 'image/png',
  widthPx: 400,
  heightPx: 200,
  width: 220,
  height: 130,
  x: 12.3,
  y: -4.5,
  rotationDeg: 17,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
  ...over,
});
function jobWith(art: readonly Art[], more: Partial<FaceJob> = {}): Job {
  const job = newJob({ name: 'Cut', deck });
  const coral = inkFrom({ name: 'Coral', hex: '#e8613c' }, []);
  const inks = [coral, inkFrom({ name: 'Night blue', hex: '#1b2440' }, [coral])];
  const bottom = { ...job.faces.bottom, art: [...art], inks, smallest: 0, ...more };
  return { ...job, faces: { ...job.faces, bottom } };
}
async function masks(bytes: Uint8Array, art: Art): Promise<readonly Mask[]> {
  const made = await faceMasks(jobWith([art]), 'bottom', DPI, 'surface', {
    art: new Map([[art.hash, bytes]]),
    codec,
    workers: inlineWorkers,
  });
  if (!made.ok) throw new Error(made.reason);
  return made.value.separations;
}
const CROP = { left: 100 / 400, right: 80 / 400, top: 40 / 200, bottom: 30 / 200 };

for (const over of [{}, { mirror: true, rotationDeg: -100 }, { wrap: 'plan' as const }])
  test(`art cropped here prints as art that another program cut before: ${JSON.stringify(over)}`, async () => {
    // The peer is libvips’ own extract of the same pixels.
    const ours = await masks(whole, piece(whole, { crop: CROP, ...over }));
    const theirs = await masks(cut, piece(cut, { widthPx: 220, heightPx: 130, ...over }));
    for (const [i, mask] of ours.entries()) {
      expect(inkCount(mask)).toBeGreaterThan(1000);
      // The two lay their samples at the same places but for the last binary digit.
      expect(inkCount(subtract(mask, theirs[i]!)) + inkCount(subtract(theirs[i]!, mask))).toBeLessThan(8);
    }
  });

test('a side that falls within a pixel of coarse art is cut where it was asked, to a tenth of that pixel', () => {
  // One flat colour, 20 × 10 pixels of 10 mm: the cut is at 3.3 pixels, so 167 of 200 mm are left.
  const flat: Picture = {
    width: 20,
    height: 10,
    data: new Uint8Array(800).map((_, i) => [232, 97, 60, 255][i % 4]!),
  };
  const art = piece(whole, {
    ...{ widthPx: 20, heightPx: 10, width: 167, height: 100, x: 0, y: 0, rotationDeg: 0 },
    crop: { left: 3.3 / 20, right: 0, top: 0, bottom: 0 },
  });
  const made = facePreview({
    job: jobWith([art]),
    face: 'bottom',
    pictures: new Map([[art.hash, flat]]),
    dpi: DPI,
    traps: false,
  });
  if (!made.ok) throw new Error(made.reason);
  const mm2 = inkCount(made.value.separations[0]!) * (25.4 / DPI) ** 2;
  expect(Math.abs(mm2 / 100 - 167)).toBeLessThan(1);
  expect(artPxPerMm(art)).toBeCloseTo(0.1, 6);
});

test('a piece at half opacity prints half its dots as a halftone, and as ever in flat ink', () => {
  const flat: Picture = {
    width: 100,
    height: 50,
    data: new Uint8Array(20000).map((_, i) => [27, 36, 64, 255][i % 4]!),
  };
  const dots = (method: FaceJob['method'], opacity: number) => {
    const art = piece(whole, { widthPx: 100, heightPx: 50, width: 100, height: 50, rotationDeg: 0, opacity });
    const made = facePreview({
      job: jobWith([art], { method, halftone: { lpi: 30, dot: 'round' } }),
      face: 'bottom',
      pictures: new Map([[art.hash, flat]]),
      dpi: 300,
      traps: false,
    });
    if (!made.ok) throw new Error(made.reason);
    return made.value.separations.reduce((sum, mask) => sum + inkCount(mask), 0);
  };
  expect(dots('spot', 0.5)).toBe(dots('spot', 1));
  const share = dots('halftone', 0.5) / dots('halftone', 1);
  expect(share).toBeGreaterThan(0.4);
  expect(share).toBeLessThan(0.6);
});
