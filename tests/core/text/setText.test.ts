import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { type Lettering, openFont, setText, type TextSetting, TYPEFACES } from '../../../core/text/index.ts';
import { sharpCodec } from '../../../electron/host/index.ts';
import { sfntOfWoff, woffOfSfnt } from '../../fuzz/sfnt.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;
const fontFile = (name: string) =>
  new Uint8Array(
    readFileSync(
      join(
        ROOT,
        'node_modules/@fontsource',
        TYPEFACES.find((t) => t.files.includes(name))!.id,
        'files',
        name,
      ),
    ),
  );
const opened = (bytes: Uint8Array, name = 'font'): Lettering => {
  const font = openFont(bytes, name);
  if (!font.ok) throw new Error(font.reason);
  return font.value;
};
const faces = (id: string) => TYPEFACES.find((t) => t.id === id)!.files.map((f) => opened(fontFile(f)));
const archivo = faces('archivo-black');
const plain: TextSetting = {
  words: 'H',
  cap: 20,
  tracking: 0,
  leading: 1.5,
  align: 'left',
  arc: 0,
  hex: '#1b2440',
};
const set = (over: Partial<TextSetting>, fonts: readonly Lettering[] = archivo) => {
  const made = setText(fonts, { ...plain, ...over });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};
const refused = (over: Partial<TextSetting>) => {
  const made = setText(archivo, { ...plain, ...over });
  return made.ok ? '' : `${made.reason} ${made.mend}`;
};
/** Where the words have ink, drawn at `perMm` points a mm by the program's own SVG renderer (librsvg). */
async function drawn(svg: string, perMm: number) {
  const [, w, h] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number];
  const [width, height] = [Math.round(w * perMm), Math.round(h * perMm)];
  const { data } = await sharp(Buffer.from(svg))
    .resize(width, height, { fit: 'fill' })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const ink = Array.from({ length: width * height }, (_, i) => data[4 * i + 3]! >= 128);
  return { width, height, ink };
}

test('a capital is as high as was asked, in every typeface that comes along', () => {
  for (const { id } of TYPEFACES) {
    // A script’s H may dip below its baseline; the height of a capital is from the baseline up.
    const { height } = set({ words: 'H', cap: 20 }, faces(id));
    expect(Math.abs(height - 20), id).toBeLessThan(
      id === 'pacifico' ? 0.3 : id === 'stardos-stencil' ? 0.15 : 0.01,
    );
  }
});

test('letters are moved apart by the tracking, lines by the leading', () => {
  expect(set({ words: 'HHH', tracking: 3 }).width - set({ words: 'HHH' }).width).toBeCloseTo(6, 2);
  expect(set({ words: 'H\nH\nH', leading: 2 }).height).toBeCloseTo(20 + 2 * 2 * 20, 2);
});

test('a pair that the font kerns stands closer than its letters alone', () => {
  // Sidebearings: A, V alone and together; with no kerning AV would be as wide as VA laid out by advances.
  const width = (words: string) => set({ words }).width;
  expect(width('AV')).toBeLessThan(width('AIV') - width('I') - 0.5);
});

test('shorter lines begin, centre or end with the longest', async () => {
  for (const [align, from, to] of [
    ['left', 0, 0.34],
    ['centre', 0.33, 0.67],
    ['right', 0.66, 1],
  ] as const) {
    const { svg } = set({ words: 'HHH\nH', align });
    const { width, height, ink } = await drawn(svg, 4);
    const low = Array.from({ length: width }, (_, x) =>
      Array.from({ length: 40 }, (_, r) => ink[(height - 1 - r) * width + x]).some(Boolean),
    );
    expect(low.indexOf(true) / width, align).toBeCloseTo(from, 1);
    expect((low.lastIndexOf(true) + 1) / width, align).toBeCloseTo(to, 1);
  }
});

describe('along a circle', () => {
  // Geometry: a line of length L on radius R spans the angle L / R, and its ends lie R (1 − cos(L / 2R)) off the middle. The feet
  // of an arch are its lowest points and the heads of a smile, R − cap from the middle of the circle, its highest.
  test('an arch is as high as its circle says, and hangs upside down when the radius is negative', () => {
    const words = 'IIIIIIIIIIIIIIIIIIIII';
    const straight = set({ words }).width;
    const radius = 150;
    const cos = Math.cos(straight / 2 / radius);
    const arch = 20 + radius * (1 - cos);
    const smile = radius - (radius - 20) * cos;
    expect(Math.abs(set({ words, arc: radius }).height - arch)).toBeLessThan(0.5);
    expect(Math.abs(set({ words, arc: -radius }).height - smile)).toBeLessThan(0.5);
    const up = set({ words: 'HIIIIIIIIH', arc: 120 });
    const down = set({ words: 'HIIIIIIIIH', arc: -120 });
    expect(up.svg).not.toBe(down.svg);
  });
  test('a very large circle is a straight line', () => {
    const bent = set({ words: 'NIGHT HERON', arc: 5000 });
    const flat = set({ words: 'NIGHT HERON' });
    // The heads of its letters fan out by cap / R.
    expect(Math.abs(bent.width - flat.width * (1 + 20 / 5000))).toBeLessThan(0.2);
    expect(Math.abs(bent.height - flat.height)).toBeLessThan(1.5);
  });
  test('one too small for the words is refused', () => {
    expect(refused({ words: 'NIGHT HERON', arc: 12 })).toMatch(/^A circle of 12 mm radius is too small/);
    expect(refused({ words: 'A\nB\nC', arc: 40 })).toMatch(/too small/);
  });
});

test('letters beyond the first file of a typeface come from its next, with accents', () => {
  expect(set({ words: 'Łódź' }).height).toBeGreaterThan(20);
});

test('what can not be set is a sentence', () => {
  expect(refused({ words: '  ' })).toMatch(/^There are no words to set/);
  expect(refused({ words: '漢' })).toMatch(/^This font has no “漢”/);
  expect(refused({ words: 'a'.repeat(401) })).toMatch(/too long: 401 letters/);
  expect(refused({ words: 'W'.repeat(300), cap: 100 })).toMatch(/mm long/);
});

test('bytes that are no font, half a font or a changed one are refused or set, never worse', () => {
  const good = fontFile('archivo-black-latin-400-normal.woff2');
  const sentence = (bytes: Uint8Array) => {
    const font = openFont(bytes, 'x.ttf');
    return font.ok ? 'a font' : font.reason;
  };
  expect(sentence(new Uint8Array(0))).toBe('“x.ttf” can not be read as a font.');
  expect(sentence(new TextEncoder().encode('not a font at all'))).toBe('“x.ttf” can not be read as a font.');
  for (let n = 1; n < 40; n++) {
    const cutShort = good.slice(0, Math.floor((good.length * n) / 40));
    expect(sentence(cutShort)).toMatch(/can not be read as a font|a font/);
  }
});

test('a font whose letters are damaged is refused in a sentence, though it opens', () => {
  const woff = new Uint8Array(
    readFileSync(join(ROOT, 'node_modules/@fontsource/anton/files/anton-latin-400-normal.woff')),
  );
  const sound = sfntOfWoff(woff);
  expect(set({}, [opened(sound)]).height).toBeCloseTo(20, 1);
  let damaged = 0;
  // Each table but the ones a font is opened by is cut to nothing in turn.
  for (let victim = 0; victim < 20; victim++) {
    let n = 0;
    const bytes = woffOfSfnt(sound, (table) => (n++ === victim ? new Uint8Array(0) : table));
    const font = openFont(bytes, 'x.woff');
    const made = font.ok ? setText([font.value], plain) : font;
    if (made.ok) continue;
    expect(made.reason).toMatch(/can not be read|has no “H”|nothing to print/);
    if (/its letters/.test(made.reason)) damaged++;
  }
  expect(damaged).toBeGreaterThan(0);
});

test('the outlines pass the importer as a drawing of their own size in mm', async () => {
  const { svg, width, height } = set({ words: 'NIGHT\nHERON', align: 'centre' });
  const probe = await sharpCodec().probe(new TextEncoder().encode(svg), 'words.svg');
  if (!probe.ok) throw new Error(probe.reason);
  expect(probe.value.vector).toBe(true);
  expect(probe.value.stated!.width).toBeCloseTo(width, 2);
  expect(probe.value.stated!.height).toBeCloseTo(height, 2);
});

const DEJAVU = '/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf';
const magick = spawnSync('convert', ['-version']).status === 0 && existsSync(DEJAVU);
describe.skipIf(!magick)('against ImageMagick, whose letters are drawn by FreeType', () => {
  for (const words of ['NIGHT', 'Heron', 'Mooring 8'])
    test(`“${words}” covers the same points, but for the rims`, async () => {
      const font = opened(new Uint8Array(readFileSync(DEJAVU)));
      // Heights of a capital to the em are the font's own; one em is 400 points here.
      const em = 400;
      const cap = (font.capHeight / font.unitsPerEm) * 100;
      const ours = await drawn(set({ words, cap }, [font]).svg, em / 100);
      const peer = spawnSync(
        'convert',
        [
          '-background',
          'white',
          '-fill',
          'black',
          '-font',
          DEJAVU,
          '-pointsize',
          String(em),
          '-density',
          '72',
          `label:${words}`,
          '-trim',
          '+repage',
          '-depth',
          '8',
          'gray:-',
        ],
        { maxBuffer: 1e8 },
      );
      const size = spawnSync('convert', [
        '-background',
        'white',
        '-fill',
        'black',
        '-font',
        DEJAVU,
        '-pointsize',
        String(em),
        '-density',
        '72',
        `label:${words}`,
        '-trim',
        '+repage',
        '-format',
        '%w %h',
        'info:-',
      ]);
      const [w, h] = size.stdout.toString().split(' ').map(Number) as [number, number];
      // FreeType rounds each letter's advance to whole points: half a point a letter.
      expect(Math.abs(w - ours.width)).toBeLessThan(words.length);
      expect(Math.abs(h - ours.height)).toBeLessThanOrEqual(2);
      let both = 0;
      let either = 0;
      for (let y = 0; y < Math.min(h, ours.height); y++)
        for (let x = 0; x < Math.min(w, ours.width); x++) {
          const a = ours.ink[y * ours.width + x]!;
          const b = peer.stdout[y * w + x]! < 128;
          if (a && b) both++;
          if (a || b) either++;
        }
      expect(both / either).toBeGreaterThan(0.96);
    });
});
