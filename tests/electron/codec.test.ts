import sharp, { type SharpOptions } from 'sharp';
import { describe, expect, test, vi } from 'vitest';
import type { SvgWindow } from '../../core/ports/index.ts';
import { blankMask } from '../../core/raster/index.ts';
import { drawSvg } from '../../electron/host/drawSvg.ts';
import { sharpCodec } from '../../electron/host/index.ts';

const codec = sharpCodec();
const svg = (text: string) => new TextEncoder().encode(text);
const XMLNS = 'xmlns="http://www.w3.org/2000/svg"';

/** The value of an outcome that must be one. */
function value<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}
/** The reason of an outcome that must be a refusal with a way out. */
function refusal(outcome: { ok: boolean; reason?: string; mend?: string }): string {
  expect(outcome.ok).toBe(false);
  expect(outcome.mend).toMatch(/\.$/);
  expect(outcome.reason).toMatch(/^[^\n]{10,300}$/);
  return outcome.reason as string;
}
const point = (p: { width: number; data: ArrayLike<number> }, x: number, y: number) =>
  Array.from({ length: 4 }, (_, c) => p.data[(y * p.width + x) * 4 + c]);
const grid = (
  width: number,
  height: number,
  at: (x: number, y: number) => readonly number[],
  channels: 3 | 4 = 4,
) =>
  sharp(
    Buffer.from(
      Array.from({ length: width * height }, (_, i) => [...at(i % width, Math.floor(i / width))]).flat(),
    ),
    { raw: { width, height, channels } },
  );

describe('pictures', () => {
  const quarters = (x: number, y: number) => [x < 8 ? 200 : 40, y < 4 ? 30 : 220, 90, x < 4 ? 0 : 255];

  for (const kind of ['png', 'webp', 'tiff'] as const)
    test(`${kind} without loss comes back point for point, alpha kept straight`, async () => {
      const image = grid(16, 8, quarters);
      const bytes = await {
        png: () => image.png(),
        webp: () => image.webp({ lossless: true, exact: true }),
        tiff: () => image.tiff({ compression: 'lzw' }),
      }
        [kind]()
        .toBuffer();
      const picture = value(await codec.decode(bytes, `a.${kind}`));
      expect([picture.width, picture.height]).toEqual([16, 8]);
      for (const [x, y] of [
        [5, 1],
        [12, 6],
        [1, 1],
      ] as const)
        expect(point(picture, x, y)[3]).toBe(quarters(x, y)[3]);
      expect(point(picture, 5, 1)).toEqual([200, 30, 90, 255]);
      expect(point(picture, 12, 6)).toEqual([40, 220, 90, 255]);
    });

  test('JPEG and AVIF are known by their bytes, whatever their name says', async () => {
    const jpeg = await grid(16, 8, () => [200, 30, 90, 255])
      .jpeg()
      .toBuffer();
    const avif = await grid(16, 8, () => [200, 30, 90, 255])
      .avif()
      .toBuffer();
    expect(value(await codec.probe(jpeg, 'wrong.png')).mediaType).toBe('image/jpeg');
    expect(value(await codec.probe(avif, 'wrong.svg')).mediaType).toBe('image/avif');
    const [r, g, b] = point(value(await codec.decode(jpeg, 'wrong.png')), 8, 4) as [number, number, number];
    expect(Math.abs(r - 200) + Math.abs(g - 30) + Math.abs(b - 90)).toBeLessThan(12);
  });

  test('every orientation of Exif is turned upright: a red upper left corner stays there', async () => {
    // Exif 2.3, tag 0x0112: where the stored row 0 and column 0 lie in the upright picture.
    const upright = (x: number, y: number) => (x < 8 && y < 8 ? [255, 0, 0] : [0, 0, 255]);
    const stored: Record<number, (x: number, y: number) => readonly number[]> = {
      1: (x, y) => upright(x, y),
      2: (x, y) => upright(31 - x, y),
      3: (x, y) => upright(31 - x, 15 - y),
      4: (x, y) => upright(x, 15 - y),
      5: (x, y) => upright(y, x),
      6: (x, y) => upright(31 - y, x),
      7: (x, y) => upright(31 - y, 15 - x),
      8: (x, y) => upright(y, 15 - x),
    };
    for (const [orientation, at] of Object.entries(stored)) {
      const swap = Number(orientation) >= 5;
      // Orientation 6: row 0 is the right-hand side, so the stored rows run down the upright columns from the right.
      const bytes = await grid(swap ? 16 : 32, swap ? 32 : 16, at, 3)
        .jpeg({ quality: 100 })
        .withMetadata({ orientation: Number(orientation) })
        .toBuffer();
      const probe = value(await codec.probe(bytes, 'o.jpg'));
      expect([probe.widthPx, probe.heightPx], `orientation ${orientation}`).toEqual([32, 16]);
      const picture = value(await codec.decode(bytes, 'o.jpg'));
      expect(point(picture, 2, 2)[0], `orientation ${orientation}`).toBeGreaterThan(200);
      expect(point(picture, 29, 13)[2], `orientation ${orientation}`).toBeGreaterThan(200);
      expect(point(picture, 29, 2)[2], `orientation ${orientation}`).toBeGreaterThan(200);
      expect(point(picture, 2, 13)[2], `orientation ${orientation}`).toBeGreaterThan(200);
    }
  });

  test('16 bits, grey, grey with alpha and a palette become eight bits of sRGB', async () => {
    const deep = await sharp(new Uint16Array([65535, 0, 32896, 65535, 257 * 17, 0, 0, 32896]), {
      raw: { width: 2, height: 1, channels: 4, depth: 'ushort' },
    } as unknown as SharpOptions)
      .toColourspace('rgb16')
      .png()
      .toBuffer();
    const picture = value(await codec.decode(deep, 'deep.png'));
    expect(point(picture, 0, 0)).toEqual([255, 0, 128, 255]);
    expect(point(picture, 1, 0)[3]).toBe(128);
    const grey = await sharp(Buffer.from([0, 128, 255, 10]), { raw: { width: 4, height: 1, channels: 1 } })
      .toColourspace('b-w')
      .png()
      .toBuffer();
    expect(point(value(await codec.decode(grey, 'grey.png')), 1, 0)).toEqual([128, 128, 128, 255]);
    const greyAlpha = await sharp(Buffer.from([50, 0, 90, 255]), {
      raw: { width: 2, height: 1, channels: 2 },
    })
      .toColourspace('b-w')
      .png()
      .toBuffer();
    expect(point(value(await codec.decode(greyAlpha, 'ga.png')), 1, 0)).toEqual([90, 90, 90, 255]);
    expect(point(value(await codec.decode(greyAlpha, 'ga.png')), 0, 0)[3]).toBe(0);
    const palette = await grid(16, 8, quarters).png({ palette: true }).toBuffer();
    expect(point(value(await codec.decode(palette, 'p.png')), 12, 6)).toEqual([40, 220, 90, 255]);
  });

  test('a colour profile is honoured: Display P3 red comes out as the nearest sRGB red, CMYK as sRGB', async () => {
    const p3 = await grid(8, 8, () => [128, 64, 64], 3)
      .withIccProfile('p3')
      .png()
      .toBuffer();
    // The tag alone: the same numbers mean a more vivid colour in P3, so the pipeline must change them back.
    const read = point(value(await codec.decode(p3, 'p3.png')), 4, 4) as number[];
    expect(Math.abs((read[0] as number) - 128)).toBeLessThanOrEqual(2);
    expect(Math.abs((read[1] as number) - 64)).toBeLessThanOrEqual(2);
    const raw = await sharp(p3, { ignoreIcc: true } as SharpOptions)
      .raw()
      .toBuffer();
    expect(Math.abs((raw[0] as number) - 128), 'the stored numbers are P3 numbers').toBeGreaterThan(3);
    const cmyk = await grid(8, 8, () => [220, 40, 40], 3)
      .toColourspace('cmyk')
      .jpeg({ quality: 100 })
      .toBuffer();
    expect((await sharp(cmyk).metadata()).space).toBe('cmyk');
    const [r, g, b] = point(value(await codec.decode(cmyk, 'c.jpg')), 4, 4) as [number, number, number];
    expect(r).toBeGreaterThan(180);
    expect(g + b).toBeLessThan(160);
  });

  test('a size is stated only when the file states one', async () => {
    const image = () => grid(300, 150, () => [1, 2, 3, 255]);
    expect(value(await codec.probe(await image().png().toBuffer(), 'a.png')).stated).toBeNull();
    expect(value(await codec.probe(await image().webp().toBuffer(), 'a.webp')).stated).toBeNull();
    for (const kind of ['png', 'jpeg', 'tiff'] as const) {
      const bytes = await image().withMetadata({ density: 300 }).toFormat(kind).toBuffer();
      const { stated } = value(await codec.probe(bytes, `a.${kind}`));
      // 300 points at 300 dpi are one inch; PNG keeps whole points per metre.
      expect(stated?.width, kind).toBeCloseTo(25.4, 2);
      expect(stated?.height, kind).toBeCloseTo(12.7, 2);
    }
  });

  test('scaling down keeps flat colours: nothing overshoots at an edge', async () => {
    const bytes = await grid(400, 200, (x) => (x < 200 ? [10, 10, 10, 255] : [240, 240, 240, 255]))
      .png()
      .toBuffer();
    const picture = value(await codec.decode(bytes, 'a.png', 100));
    expect([picture.width, picture.height]).toEqual([100, 50]);
    const reds = Array.from(picture.data).filter((_, i) => i % 4 === 0);
    expect(Math.min(...reds)).toBe(10);
    expect(Math.max(...reds)).toBe(240);
    expect(value(await codec.decode(bytes, 'a.png', 5000)).width).toBe(400);
  });

  test('cut off, empty, unknown and mislabelled files are refused in one sentence', async () => {
    const png = await grid(200, 200, (x, y) => [x, y, (x * y) % 251, 255])
      .png()
      .toBuffer();
    const jpeg = await grid(200, 200, (x, y) => [x, y, (x * y) % 251, 255])
      .jpeg()
      .toBuffer();
    expect(refusal(await codec.decode(png.subarray(0, png.length / 2), 'half.png'))).toContain('damaged');
    expect(refusal(await codec.decode(jpeg.subarray(0, jpeg.length / 2), 'half.jpg'))).toContain('damaged');
    expect(refusal(await codec.probe(png.subarray(0, 20), 'start.png'))).toContain('damaged');
    expect(refusal(await codec.probe(new Uint8Array(0), 'none.png'))).toContain('empty');
    expect(refusal(await codec.probe(svg('hello there, this is text'), 'a.png'))).toContain('not a picture');
    expect(refusal(await codec.probe(svg('%PDF-1.7 and so on'), 'a.png'))).toContain('PDF');
    expect(refusal(await codec.probe(svg('GIF89a.............'), 'a.png'))).toContain('GIF');
  });

  test('a picture of 30000 × 30000 points is refused from its header', async () => {
    const header = await sharp({ create: { width: 64, height: 64, channels: 3, background: '#fff' } })
      .png()
      .toBuffer();
    const big = Buffer.from(header);
    big.writeUInt32BE(30000, 16);
    big.writeUInt32BE(30000, 20);
    // The header's check sum, by an independent implementation.
    const { crc32 } = await import('node:zlib');
    big.writeUInt32BE(crc32(big.subarray(12, 29)), 29);
    expect(refusal(await codec.probe(big, 'big.png'))).toContain('30000 × 30000');
    expect(refusal(await codec.decode(big, 'big.png', 512))).toContain('30000 × 30000');
  });
});

describe('drawings', () => {
  const window = (over: Partial<SvgWindow>): SvgWindow => ({
    x: 0,
    y: 0,
    width: 10,
    height: 10,
    outWidth: 10,
    outHeight: 10,
    ...over,
  });

  test('physical units state a size, px and bare numbers do not', async () => {
    const stated = async (root: string) =>
      value(await codec.probe(svg(`<svg ${XMLNS} ${root}><path d="M0 0h5v5z"/></svg>`), 'a.svg'));
    expect((await stated('width="846mm" height="214mm" viewBox="0 0 846 214"')).stated).toEqual({
      width: expect.closeTo(846, 9),
      height: expect.closeTo(214, 9),
    });
    expect((await stated('width="10cm" height="2in" viewBox="0 0 100 50.8"')).stated?.width).toBeCloseTo(
      100,
      9,
    );
    expect((await stated('width="72pt" height="144pt" viewBox="0 0 1 2"')).stated?.height).toBeCloseTo(
      50.8,
      9,
    );
    expect((await stated('width="96" height="48" viewBox="0 0 96 48"')).stated).toBeNull();
    expect((await stated('width="96px" height="48px"')).widthPx).toBe(96);
    const none = await stated('viewBox="-5 -5 30 20"');
    expect([none.stated, none.widthPx, none.heightPx]).toEqual([null, 30, 20]);
    // 100 × 100 mm round a 2 : 1 viewBox: the drawing fits inside, so it is 100 × 50 mm.
    expect((await stated('width="100mm" height="100mm" viewBox="0 0 20 10"')).stated?.height).toBeCloseTo(
      50,
      9,
    );
  });

  test('a window draws just its part, at its size, and tiles join to the whole', async () => {
    const text = `<svg ${XMLNS} viewBox="-20 -10 40 20"><rect width="50%" height="100%" x="-20" y="-10" fill="#c03020"/>
      <circle cx="4" cy="1" r="6.5" fill="#1b2440"/><path d="M-18 -8L15 9" stroke="#2f8f83" stroke-width="1.3"/></svg>`;
    const whole = value(
      await codec.rasterise(svg(text), 'a.svg', {
        x: 0,
        y: 0,
        width: 40,
        height: 20,
        outWidth: 400,
        outHeight: 200,
      }),
    );
    expect(point(whole, 100, 20)).toEqual([192, 48, 32, 255]);
    expect(point(whole, 390, 20)[3]).toBe(0);
    expect(point(whole, 240, 110)).toEqual([27, 36, 64, 255]);
    for (const [x, y] of [
      [0, 0],
      [20, 0],
      [10, 5],
      [30, 10],
    ] as const) {
      const tile = value(
        await codec.rasterise(svg(text), 'a.svg', {
          x,
          y,
          width: 10,
          height: 10,
          outWidth: 100,
          outHeight: 100,
        }),
      );
      let worst = 0;
      let sum = 0;
      for (let ty = 0; ty < 100; ty++)
        for (let tx = 0; tx < 100; tx++)
          for (let c = 0; c < 4; c++) {
            // As they show: a colour counts for as much as it covers.
            const [i, j] = [(ty * 100 + tx) * 4, ((y * 10 + ty) * 400 + x * 10 + tx) * 4];
            const a = ((tile.data[i + c] as number) * (c < 3 ? (tile.data[i + 3] as number) : 255)) / 255;
            const b = ((whole.data[j + c] as number) * (c < 3 ? (whole.data[j + 3] as number) : 255)) / 255;
            worst = Math.max(worst, Math.abs(a - b));
            sum += Math.abs(a - b);
          }
      // The renderer turns curves into chords within a tenth of a point, and may choose others in another window.
      expect(worst, `tile at ${x}, ${y}`).toBeLessThanOrEqual(0.1 * 255);
      expect(sum / 40_000, `tile at ${x}, ${y}`).toBeLessThan(0.05);
    }
  });

  test('lengths in mm inside a drawing are true to the CSS inch of 96 px', async () => {
    const text = `<svg ${XMLNS} width="40mm" height="20mm"><rect width="20mm" height="20mm" fill="#000"/></svg>`;
    const { widthPx, heightPx } = value(await codec.probe(svg(text), 'a.svg'));
    const picture = value(
      await codec.rasterise(
        svg(text),
        'a.svg',
        window({ width: widthPx, height: heightPx, outWidth: 400, outHeight: 200 }),
      ),
    );
    expect(point(picture, 197, 100)[3]).toBe(255);
    expect(point(picture, 203, 100)[3]).toBe(0);
  });

  test('a drawing that stretches its window is stretched, and odd sizes are kept to the point', async () => {
    const text = `<svg ${XMLNS} viewBox="0 0 10.5 7.25"><rect width="10.5" height="7.25"/></svg>`;
    const { widthPx, heightPx } = value(await codec.probe(svg(text), 'a.svg'));
    expect(widthPx / heightPx).toBeCloseTo(10.5 / 7.25, 3);
    const picture = value(
      await codec.rasterise(
        svg(text),
        'a.svg',
        window({ width: widthPx, height: heightPx, outWidth: 333, outHeight: 77 }),
      ),
    );
    expect([picture.width, picture.height]).toEqual([333, 77]);
    expect(point(picture, 332, 76)[3]).toBe(255);
  });

  test('an import that reading and the trial have used up leaves a first look little time, a film its own', async () => {
    // Noise in fine grains over the whole: the library needs several seconds for it.
    const text = `<svg ${XMLNS} viewBox="0 0 100 100"><filter id="n" x="0" y="0" width="1" height="1"><feTurbulence baseFrequency="0.7" numOctaves="9"/></filter><rect width="100" height="100" filter="url(#n)"/></svg>`;
    const blank = { width: 2400, height: 2400, data: new Uint8Array(2400 * 2400 * 4) };
    let clock = 0;
    const now = vi.spyOn(performance, 'now').mockImplementation(() => clock);
    const slow = sharpCodec({
      trial: async () => {
        clock += 8900;
        return blank;
      },
    });
    const bytes = svg(text);
    await slow.probe(bytes, 'noise.svg');
    now.mockRestore();
    const whole = window({ width: 100, height: 100, outWidth: 3000, outHeight: 3000, look: true });
    expect(await slow.rasterise(bytes, 'noise.svg', whole)).toMatchObject({
      ok: false,
      reason: '“noise.svg” takes longer than 9 s to open.',
    });
    const part = window({ width: 1, height: 1, outWidth: 30, outHeight: 30 });
    expect((await slow.rasterise(bytes, 'noise.svg', part)).ok).toBe(true);
  });

  test('a drawing tried ahead is tried once, and whoever asks for a window hears how that went', async () => {
    const sides: number[] = [];
    const eager = sharpCodec({
      trial: async (bytes) => {
        const picture = await drawSvg(bytes);
        sides.push(picture.width, picture.height);
        return picture;
      },
    });
    const bytes = svg(`<svg ${XMLNS} viewBox="0 0 40 10"><rect width="40" height="10"/></svg>`);
    eager.tryDrawing?.(bytes, 'a.svg');
    const part = window({ width: 4, height: 1, outWidth: 40, outHeight: 10 });
    expect(point(value(await eager.rasterise(bytes, 'a.svg', part)), 39, 9)).toEqual([0, 0, 0, 255]);
    expect(sides).toEqual([2000, 500]);
    // One who looks at all of it later gets the picture at the size asked for.
    const whole = window({ width: 40, height: 10, outWidth: 2400, outHeight: 600, look: true });
    expect(value(await eager.rasterise(bytes, 'a.svg', whole)).width).toBe(2400);
    const bad = svg(`<svg ${XMLNS} viewBox="0 0 10 10"><script>1</script></svg>`);
    eager.tryDrawing?.(bad, 'bad.svg');
    eager.tryDrawing?.(new Uint8Array(0), 'empty.svg');
    expect(refusal(await eager.rasterise(bad, 'bad.svg', part))).toMatch(/script/);
  });

  const bad: readonly (readonly [string, string, RegExp])[] = [
    ['a script', '<script>1</script>', /script/],
    ['an event handler', '<rect onclick="1" width="1" height="1"/>', /script/],
    ['a disguised script link', '<a href="java&#115;cript:1"><rect width="1" height="1"/></a>', /script/],
    ['a linked picture', '<image href="https://example.org/a.png" width="1" height="1"/>', /outside/],
    ['a linked neighbour', '<use href="other.svg#a"/>', /outside/],
    ['a style from elsewhere', '<style>@import "https://example.org/a.css";</style>', /outside/],
    ['a fill from elsewhere', '<rect fill="url(file:///etc/passwd#a)" width="1" height="1"/>', /outside/],
    ['a fill from elsewhere in CDATA', '<style><![CDATA[a{fill:url(b.svg#c)}]]></style>', /outside/],
    [
      'an embedded drawing',
      '<image href="data:image/svg+xml;base64,PHN2Zy8+" width="1" height="1"/>',
      /outside/,
    ],
    ['a foreign document', '<foreignObject width="1" height="1"/>', /foreign/],
    ['tags that do not match', '<g><path d="M0 0"/></a>', /match/],
  ];
  for (const [what, inner, said] of bad)
    test(`${what} is refused`, async () => {
      const text = `<svg ${XMLNS} xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 10 10">${inner}</svg>`;
      expect(refusal(await codec.probe(svg(text), 'bad.svg'))).toMatch(said);
    });

  test('an entity bomb, a cut-off drawing, sizes that are none, and another root are refused', async () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><svg ${XMLNS} viewBox="0 0 9 9"><text>&b;</text></svg>`;
    expect(refusal(await codec.probe(svg(bomb), 'b.svg'))).toContain('entities');
    expect(refusal(await codec.probe(svg(`<svg ${XMLNS} viewBox="0 0 9 9"><path d="M0`), 'b.svg'))).toContain(
      'end',
    );
    for (const root of [
      'width="-4" height="9"',
      'width="NaN" height="3"',
      'viewBox="0 0 0 9"',
      'viewBox="a b c d"',
      '',
    ])
      expect(
        refusal(await codec.probe(svg(`<svg ${XMLNS} ${root}><path d="M0 0"/></svg>`), 'b.svg')),
      ).toContain('states');
    expect(refusal(await codec.probe(svg('<!-- <svg --><html><svg/></html>'), 'b.svg'))).toContain('root');
  });

  test('a doctype without entities, comments and links on text are harmless', async () => {
    const text = `<?xml version="1.0" encoding="iso-8859-1"?><!-- a > b --><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd"><svg ${XMLNS} viewBox="0 0 9 9"><a href="https://example.org"><rect width="9" height="9"/></a></svg>`;
    expect(value(await codec.probe(svg(text), 'a.svg')).widthPx).toBe(9);
  });

  test('endless and exploding copies, too many elements and too deep nesting end quickly', async () => {
    const levels = Array.from(
      { length: 12 },
      (_, i) => `<g id="l${i + 1}">${`<use href="#l${i}"/>`.repeat(10)}</g>`,
    );
    const laughs = `<svg ${XMLNS} viewBox="0 0 9 9"><defs><g id="l0"><rect width="1" height="1"/></g>${levels.join('')}</defs><use href="#l12"/></svg>`;
    expect(refusal(await codec.probe(svg(laughs), 'b.svg'))).toContain('copies');
    const self = `<svg ${XMLNS} viewBox="0 0 9 9"><g id="a"><use href="#a"/></g></svg>`;
    expect(refusal(await codec.probe(svg(self), 'b.svg'))).toContain('copies');
    const many = `<svg ${XMLNS} viewBox="0 0 9 9">${'<path d="M0 0h1v1z"/>'.repeat(200_001)}</svg>`;
    expect(refusal(await codec.probe(svg(many), 'b.svg'))).toContain('elements');
    const deep = `<svg ${XMLNS} viewBox="0 0 9 9">${'<g>'.repeat(1200)}${'</g>'.repeat(1200)}</svg>`;
    expect(refusal(await codec.probe(svg(deep), 'b.svg'))).toContain('deep');
    const allowed = `<svg ${XMLNS} viewBox="0 0 9 9">${'<g>'.repeat(390)}<rect width="9" height="9"/>${'</g>'.repeat(390)}</svg>`;
    expect(value(await codec.probe(svg(allowed), 'a.svg')).vector).toBe(true);
  });
});

describe('writing', () => {
  test('a picture and a mask are read back by another decoder point for point, with their dpi', async () => {
    const data = Uint8Array.from({ length: 37 * 11 * 4 }, (_, i) => (i * 73 + (i >> 3)) & 255);
    const bytes = await codec.encodePng({ width: 37, height: 11, data }, 150);
    const read = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
    expect(read.info.channels).toBe(4);
    expect(Buffer.compare(read.data, Buffer.from(data))).toBe(0);
    expect((await sharp(bytes).metadata()).density).toBe(150);
    const mask = blankMask(45, 9);
    for (let y = 0; y < 9; y++)
      for (let x = 0; x < 45; x++)
        if ((x * y + x) % 3 === 0) (mask.data as Uint32Array)[y * mask.stride + (x >> 5)]! |= 1 << (x & 31);
    const png = await codec.encodeMaskPng(mask, 600);
    const metadata = await sharp(png).metadata();
    expect([metadata.bitsPerSample, metadata.channels, metadata.density]).toEqual([1, 1, 600]);
    const grey = await sharp(png).toColourspace('b-w').raw().toBuffer();
    for (let y = 0; y < 9; y++)
      for (let x = 0; x < 45; x++) expect(grey[y * 45 + x]).toBe((x * y + x) % 3 === 0 ? 0 : 255);
  });
});
