import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import type { ArtLayer } from '../../core/ports/index.ts';
import { sharpCodec } from '../../electron/host/index.ts';
import { readPdf } from '../../electron/host/pdfPages.ts';
import {
  GROUPED_SVG,
  groupsByPdfLib,
  openRasterByPython,
  pagesByGhostscript,
} from '../fixtures/layeredFiles.ts';
import { kickflat } from './runCli.ts';

const codec = sharpCodec({ pdf: (asked) => readPdf(asked) });
const utf8 = (text: string) => new TextEncoder().encode(text);

function has(program: string, ...args: string[]): boolean {
  try {
    execFileSync(program, args, { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
const GS = has('gs', '--version');
const MAGICK = has('convert', '-version') && has('python3', '--version');

async function layersOf(bytes: Uint8Array, name: string): Promise<readonly ArtLayer[]> {
  const made = await codec.layers(bytes, name);
  if (!made.ok) throw new Error(`${made.reason} ${made.mend}`);
  return made.value;
}

/** Area drawn, in square mm of a picture `width` mm wide, weighted by alpha; and its mean colour. */
async function areaOf(layer: ArtLayer, width: number) {
  const { data, info } = await sharp(layer.bytes, { density: 300 })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  let alpha = 0;
  const sum = [0, 0, 0];
  for (let i = 0; i < data.length; i += 4) {
    alpha += data[i + 3]! / 255;
    for (let c = 0; c < 3; c++) sum[c] = sum[c]! + (data[i + c]! * data[i + 3]!) / 255;
  }
  return {
    mm2: alpha * (width / info.width) ** 2,
    colour: sum.map((v) => Math.round(v / Math.max(1, alpha))),
  };
}

describe('files prepared in layers', () => {
  test.skipIf(!MAGICK)(
    'OpenRaster by Python and ImageMagick: undermost first, moved, half opaque, a stack as one, hidden told',
    async () => {
      const layers = await layersOf(openRasterByPython(), 'boat.ora');
      expect(layers.map(({ name, hidden }) => [name, hidden])).toEqual([
        ['Sky', false],
        ['Boat', false],
        ['Sketch', true],
      ]);
      const [sky, boat] = layers as [ArtLayer, ArtLayer];
      const probe = await codec.probe(boat.bytes, 'boat');
      expect(probe.ok && [probe.value.widthPx, probe.value.heightPx]).toEqual([300, 200]);
      // 150 dots an inch are 50.8 mm; the file keeps whole dots a metre (5906), so 50.797.
      expect(probe.ok && probe.value.stated?.width).toBeCloseTo(50.8, 2);
      // In points: 80 × 50 are left of the sky, at half; the hull 200 × 40 and above it 10 × 80 of mast, touching.
      expect((await areaOf(sky, 300)).mm2 / (80 * 50)).toBeCloseTo(0.5, 2);
      expect(await areaOf(sky, 300)).toMatchObject({ colour: [0x30, 0x70, 0xc0] });
      expect(Math.round((await areaOf(boat, 300)).mm2)).toBe(200 * 40 + 10 * 80);
    },
  );

  test('an SVG’s groups by label and id, the loose shapes together, what is defined in one still serving another', async () => {
    const layers = await layersOf(utf8(GROUPED_SVG), 'a.svg');
    expect(layers.map(({ name, hidden }) => [name, hidden])).toEqual([
      ['Loose shapes', false],
      ['Sea', false],
      ['Sun', false],
      ['Group 3', true],
    ]);
    const areas = await Promise.all(layers.map((layer) => areaOf(layer, 120)));
    expect(areas.map(({ mm2 }) => Math.round(mm2 / 10) * 10)).toEqual([600, 2000, 1800, 0]);
    expect(areas[1]?.colour).toEqual([0x20, 0x50, 0xa0]);
    expect(await layersOf(utf8(GROUPED_SVG.replace(/<g id="Sun">[\s\S]*(?=<\/svg>)/, '')), 'a.svg')).toEqual(
      [],
    );
  });

  test('a PDF’s optional groups by pdf-lib: each alone, hidden ones told, what is in none by itself', async () => {
    const layers = await layersOf(await groupsByPdfLib(), 'a.pdf');
    expect(layers.map(({ name, hidden }) => [name, hidden])).toEqual([
      ['In no layer', false],
      ['Sea', false],
      ['Sun', true],
    ]);
    const areas = await Promise.all(layers.map((layer) => areaOf(layer, 120)));
    expect(Math.abs(areas[0]!.mm2 - 600)).toBeLessThan(6);
    expect(Math.abs(areas[1]!.mm2 - 2000)).toBeLessThan(6);
    expect(Math.abs(areas[2]!.mm2 - 1800)).toBeLessThan(6);
    const probe = await codec.probe(layers[1]!.bytes, 'a');
    expect(probe.ok && probe.value.stated?.width).toBeCloseTo(120, 1);
    expect(probe.ok && Math.abs((probe.value.widthPx as number) - (120 / 25.4) * 600)).toBeLessThan(2);
  }, 60_000);

  test.skipIf(!GS)(
    'a PDF’s pages by Ghostscript, one plate a page',
    async () => {
      const layers = await layersOf(pagesByGhostscript(), 'plates.pdf');
      expect(layers.map(({ name }) => name)).toEqual(['Page 1', 'Page 2']);
      const areas = await Promise.all(layers.map((layer) => areaOf(layer, 100)));
      expect(Math.abs(areas[0]!.mm2 - 1200)).toBeLessThan(6);
      expect(Math.abs(areas[1]!.mm2 - 1200)).toBeLessThan(6);
      expect(Math.abs(areas[1]!.colour[0]! - 127)).toBeLessThan(3);
    },
    60_000,
  );
});

let dir: string;
beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-layers-'));
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const faceOf = (name: string) => {
  const file = unpackJob(new Uint8Array(readFileSync(join(dir, name))));
  if (!file.ok) throw new Error(file.reason);
  return file.value.job.faces.bottom;
};

describe('layers on the command line', () => {
  test('a PDF in groups makes a layered job with an ink for each, hidden ones kept hidden', async () => {
    writeFileSync(join(dir, 'a.pdf'), await groupsByPdfLib());
    const ran = await kickflat(dir, ['new', '--art', 'a.pdf', '--out', 'pdf.kickflat']);
    expect(ran.err).toBe('');
    const face = faceOf('pdf.kickflat');
    expect(face.method).toBe('layered');
    expect(face.inks.map(({ name }) => name)).toEqual(['In no layer', 'Sea']);
    expect(
      face.art.map(({ name, hidden, layer, group }) => [name, hidden, layer?.ink, layer?.takes, group]),
    ).toEqual([
      ['In no layer', false, 'in-no-layer', 'alpha', 'a'],
      ['Sea', false, 'sea', 'alpha', 'a'],
      ['Sun', true, null, 'alpha', 'a'],
    ]);
    expect(face.art[1]?.width).toBeCloseTo(120, 0);
  }, 120_000);

  test('layers are matched to inks by name or as told, and wrong names get the nearest known one', async () => {
    writeFileSync(join(dir, 'g.svg'), GROUPED_SVG);
    const inks = '#2050a0=Night water,#f0b020=sun';
    const args = ['new', '--art', 'g.svg', '--method', 'layered', '--inks', inks];
    const told = [
      '--layers',
      'Sea=Night water,Loose shapes=none',
      '--screened',
      'sun',
      '--takes',
      'darkness',
    ];
    await kickflat(dir, [...args, ...told, '--out', 'svg.kickflat']);
    const face = faceOf('svg.kickflat');
    expect(face.art.map(({ name, layer }) => [name, layer])).toEqual([
      ['Loose shapes', { ink: null, takes: 'darkness' }],
      ['Sea', { ink: 'night-water', takes: 'darkness' }],
      ['Sun', { ink: 'sun', takes: 'darkness' }],
      ['Group 3', { ink: null, takes: 'darkness' }],
    ]);
    expect(face.inks.map(({ split }) => split)).toEqual([undefined, 'halftone']);
    const wrong = await kickflat(dir, [...args, '--layers', 'See=sun', '--out', 'no.kickflat']);
    expect(wrong.status).toBe(2);
    expect(wrong.err).toMatch(/no layer “See”.*Did you mean Sea\?/);
  }, 120_000);

  test('several files are a layer each, and the films hold their areas', async () => {
    for (const [name, rect] of [
      ['coral', '<rect x="20" y="10" width="60" height="40"/>'],
      ['night', '<rect x="60" y="20" width="60" height="40"/>'],
    ] as const)
      writeFileSync(
        join(dir, `${name}.svg`),
        `<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="80mm" viewBox="0 0 160 80"><rect width="160" height="80" fill="#fff"/>${rect}</svg>`,
      );
    await kickflat(dir, [
      'new',
      '--art',
      'coral.svg',
      'night.svg',
      '--method',
      'layered',
      '--trap',
      '0',
      '--out',
      'two.kickflat',
    ]);
    const face = faceOf('two.kickflat');
    expect(face.inks.map(({ name }) => name)).toEqual(['coral', 'night']);
    expect(face.art.every(({ layer }) => layer?.takes === 'darkness')).toBe(true);
    const ran = await kickflat(dir, ['films', 'two.kickflat', '--out', 'films', '--masks', '--dpi', '150']);
    expect(ran.status).toBe(0);
    for (const [pull, name] of ['coral', 'night'].entries()) {
      const { data } = await sharp(join(dir, `films/separation-bottom-${pull + 1}-${name}.png`))
        .toColourspace('b-w')
        .raw()
        .toBuffer({ resolveWithObject: true });
      const mm2 = data.filter((v) => v < 128).length * (25.4 / 150) ** 2;
      // 60 × 40 mm, made smaller by the mesh's growth (under half a percent each way).
      expect(mm2 / 2400).toBeGreaterThan(0.985);
      expect(mm2 / 2400).toBeLessThan(1.005);
    }
  }, 120_000);
});
