import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { checkJob } from '../../../core/check/index.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { facePreview } from '../../../core/facePreview.ts';
import { faceWindow } from '../../../core/faceWindow.ts';
import { type FaceJob, hashOf, type Ink, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { makeCheck } from '../../../core/makeCheck.ts';
import { crop, getBit, inkCount, intersect, type Mask, subtract } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { pxPerMm } from '../../../core/units/index.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

const codec = sharpCodec();
const SVG = (inner: string) => `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">${inner}</svg>`;
/** Two solid layers that overlap by 20 mm, and one of a grey that is a tint of one quarter. */
const FILES = {
  sea: SVG('<rect x="10" y="10" width="100" height="60" fill="#2050a0"/>'),
  sun: SVG('<rect x="90" y="30" width="60" height="60" fill="#f0b020"/>'),
  haze: SVG(
    '<rect width="200" height="100" fill="#fff"/><rect x="160" y="20" width="30" height="60" fill="#bfbfbf"/>',
  ),
};
const bytes = new Map<string, Uint8Array>();
const hashes: Record<string, string> = {};
const pictures = new Map<string, { width: number; height: number; data: Uint8Array }>();
for (const [name, text] of Object.entries(FILES)) {
  const file = new TextEncoder().encode(text);
  const hash = hashOf(file);
  hashes[name] = hash;
  bytes.set(hash, file);
  const { data, info } = await sharp(Buffer.from(text), { density: 96 * 8 })
    .resize(1600, 800)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  pictures.set(hash, { width: info.width, height: info.height, data: Uint8Array.from(data) });
}

const sea = inkFrom({ name: 'Sea', hex: '#2050a0' }, []);
const sun = inkFrom({ name: 'Sun', hex: '#f0b020' }, [sea]);
const haze: Ink = { ...inkFrom({ name: 'Haze', hex: '#808080' }, [sea, sun]), split: 'halftone' };

function jobOf(more: Partial<FaceJob> = {}, inks: Ink[] = [sea, sun, haze]): Job {
  const job = newJob({ name: 'Layers', deck: deckTemplate('popsicle-8.25')! });
  const art = (['sea', 'sun', 'haze'] as const).map((name) => ({
    id: name,
    name,
    hash: hashes[name] as string,
    mediaType: 'image/svg+xml' as const,
    widthPx: 200,
    heightPx: 100,
    width: 200,
    height: 100,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface' as const,
    ground: null,
    hidden: false,
    group: 'file',
    layer: { ink: name, takes: name === 'haze' ? ('darkness' as const) : ('alpha' as const) },
  }));
  const bottom = { ...job.faces.bottom, art, inks, method: 'layered' as const, ...more };
  return { ...job, faces: { ...job.faces, bottom } };
}

async function masks(job: Job, dpi = 300) {
  const made = await faceMasks(job, 'bottom', dpi, 'surface', { art: bytes, codec, workers: inlineWorkers });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}
const mm2 = (mask: Mask, dpi: number) => inkCount(mask) / pxPerMm(dpi) ** 2;

describe('layers of one ink each', () => {
  test('print where they are drawn, both where they overlap; a grey is a tint in a screen', async () => {
    const { separations, prints } = await masks(
      jobOf({ traps: { ...jobOf().faces.bottom.traps, width: 0 } }),
    );
    const [a, b, c] = separations as [Mask, Mask, Mask];
    expect(Math.abs(mm2(a, 300) - 6000)).toBeLessThan(15);
    expect(Math.abs(mm2(b, 300) - 3600)).toBeLessThan(12);
    expect(Math.abs(mm2(intersect(a, b), 300) - 20 * 40)).toBeLessThan(6);
    // #bf is 191 of 255: a tint of 0.251 over 30 × 60 mm.
    expect(Math.abs(mm2(c, 300) / 1800 - 64 / 255)).toBeLessThan(0.01);
    expect(prints.map(inkCount)).toEqual(separations.map(inkCount));
  }, 60_000);

  test('trap like flat inks, and dots neither spread nor are spread under', async () => {
    const { separations, prints } = await masks(jobOf());
    // The sea is darker: the sun spreads under it, but both print in the overlap already.
    for (const [i, mask] of prints.entries())
      expect(inkCount(subtract(separations[i] as Mask, mask))).toBe(0);
    expect(inkCount(prints[2] as Mask)).toBe(inkCount(separations[2] as Mask));
  }, 60_000);

  test('a base goes under the whole of a tint, choked, and not under its dots alone', async () => {
    const white = inkFrom({ name: 'White', hex: '#ffffff', role: 'base' }, []);
    const { prints } = await masks(jobOf({}, [white, sea, sun, { ...haze, needsBase: 'all' }]));
    const choke = jobOf().faces.bottom.traps.choke;
    expect(Math.abs(mm2(prints[0] as Mask, 300) - (30 - 2 * choke) * (60 - 2 * choke))).toBeLessThan(20);
  }, 60_000);

  test('preview and loupe show the same as the films’ own path', async () => {
    const job = jobOf();
    const whole = await masks(job, 300);
    const preview = facePreview({ job, face: 'bottom', pictures, dpi: 300, traps: true });
    if (!preview.ok) throw new Error(preview.reason);
    for (const [i, mask] of preview.value.prints.entries())
      expect(Math.abs(mm2(mask, 300) - mm2(whole.prints[i] as Mask, 300))).toBeLessThan(15);
    // Over an edge, and over dots; in the whole preview the same points are cut out.
    for (const [x, y] of [
      [-6, -22],
      [70, -3],
    ] as const) {
      const seen = faceWindow({
        job,
        face: 'bottom',
        pictures,
        dpi: 300,
        window: { x, y, width: 12, height: 8 },
      });
      if (!seen.ok) throw new Error(seen.reason);
      const { box, width, height } = seen.value;
      const scale = pxPerMm(300);
      const left = Math.round((box.x - preview.value.box.x) * scale);
      const top = Math.round((preview.value.box.y + preview.value.box.height - box.y - box.height) * scale);
      let ink = 0;
      for (const [i, mask] of seen.value.prints.entries()) {
        const there = crop(preview.value.prints[i] as Mask, left, top, width, height);
        let other = 0;
        for (let v = 0; v < height; v++)
          for (let u = 0; u < width; u++) if (getBit(mask, u, v) !== getBit(there, u, v)) other++;
        expect(other).toBeLessThan(0.01 * width * height);
        ink += inkCount(mask);
      }
      expect(ink).toBeGreaterThan(0);
    }
  }, 60_000);

  test('a layer for no ink prints nothing and is told of; none at all is refused in words', async () => {
    const some = jobOf({}, [sea, sun]);
    expect(
      checkJob({ job: some, faces: [] }).map(({ code, severity, art }) => [code, severity, art]),
    ).toContainEqual(['layer-without-ink', 'note', 'haze']);
    const none = jobOf({}, [inkFrom({ name: 'Other', hex: '#123456' }, [])]);
    const refused = await faceMasks(none, 'bottom', 100, 'film', {
      art: bytes,
      codec,
      workers: inlineWorkers,
    });
    expect(refused).toMatchObject({ ok: false, kind: 'input' });
    const checked = await makeCheck({ job: none, art: bytes, codec, workers: inlineWorkers });
    expect(checked.ok && checked.value.filter(({ code }) => code === 'layer-without-ink')).toHaveLength(3);
  }, 60_000);

  test('a ruling too fine for the printer is told by the check already', () => {
    const fine = jobOf({ halftone: { lpi: 150, dot: 'round' } });
    expect(checkJob({ job: fine, faces: [] }).map(({ code }) => code)).toContain('screen-too-fine');
    expect(checkJob({ job: jobOf(), faces: [] }).map(({ code }) => code)).not.toContain('screen-too-fine');
    const flat = { ...sea, split: undefined };
    const without = jobOf({ halftone: { lpi: 150, dot: 'round' } }, [flat]);
    expect(checkJob({ job: without, faces: [] }).map(({ code }) => code)).not.toContain('screen-too-fine');
  });
});
