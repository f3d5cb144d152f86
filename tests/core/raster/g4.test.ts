import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import {
  blankMask,
  complement,
  decodeG4,
  encodeG4,
  equal,
  type Mask,
  maskOf,
  msbRows,
  setBit,
} from '../../../core/raster/index.ts';
import { blobs, randomMask } from './randomMask.ts';

/** A TIFF 6.0 file of one Group 4 strip, white as 0. */
function tiffOf(bytes: Uint8Array, width: number, height: number): Buffer {
  const tags = [
    [256, 4, width],
    [257, 4, height],
    [258, 3, 1],
    [259, 3, 4],
    [262, 3, 0],
    [273, 4, 8 + 2 + 9 * 12 + 4],
    [277, 3, 1],
    [278, 4, height],
    [279, 4, bytes.length],
  ] as const;
  const head = Buffer.alloc(8 + 2 + tags.length * 12 + 4);
  head.write('II*\0', 'latin1');
  head.writeUInt32LE(8, 4);
  head.writeUInt16LE(tags.length, 8);
  tags.forEach(([tag, type, value], i) => {
    const at = 10 + 12 * i;
    head.writeUInt16LE(tag, at);
    head.writeUInt16LE(type, at + 2);
    head.writeUInt32LE(1, at + 4);
    if (type === 3) head.writeUInt16LE(value, at + 8);
    else head.writeUInt32LE(value, at + 8);
  });
  return Buffer.concat([head, bytes]);
}

/** Ink as libtiff (inside sharp) decodes it: black points. */
async function byLibtiff(bytes: Uint8Array, width: number, height: number): Promise<Uint8Array> {
  const { data, info } = await sharp(tiffOf(bytes, width, height))
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([width, height]);
  const rows = new Uint8Array(Math.ceil(width / 8) * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if (data[(y * width + x) * info.channels]! < 128)
        rows[y * Math.ceil(width / 8) + (x >> 3)]! |= 128 >> (x & 7);
  return rows;
}

const masks: Mask[] = [
  maskOf('.'),
  maskOf('#'),
  maskOf('.#. / ### / .#.'),
  complement(blankMask(64, 5)),
  blankMask(65, 4),
  blobs(300, 200, 30, 2),
  blobs(1728, 60, 60, 3),
  randomMask(2700, 12, 0.001, 4),
  complement(randomMask(5400, 9, 0.0006, 5)),
];
for (let width = 1; width <= 130; width += 1)
  masks.push(randomMask(width, 6, [0.05, 0.5, 0.9][width % 3]!, width));
// Runs of every make-up code, white and black, up to several times the longest.
const runs = blankMask(9000, 70);
for (let y = 0; y < 70; y++) for (let x = 0; x < 64 * y + y; x++) setBit(runs, x + 7 * (y % 5), y);
masks.push(runs, complement(runs));

describe('Group 4', () => {
  test('our own decoder gives every mask back', () => {
    for (const mask of masks)
      expect(equal(decodeG4(encodeG4(mask), mask.width, mask.height), mask)).toBe(true);
  });

  test('libtiff decodes every mask to the same points', async () => {
    for (const mask of masks) {
      const rows = await byLibtiff(encodeG4(mask), mask.width, mask.height);
      expect(Buffer.compare(rows, msbRows(mask)), `${mask.width} × ${mask.height}`).toBe(0);
    }
  });

  test('our decoder reads what libtiff encodes', async () => {
    for (const mask of masks.slice(0, 9)) {
      const grey = Buffer.alloc(mask.width * mask.height, 255);
      for (let y = 0; y < mask.height; y++)
        for (let x = 0; x < mask.width; x++)
          if ((mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1) grey[y * mask.width + x] = 0;
      const tiff = await sharp(grey, { raw: { width: mask.width, height: mask.height, channels: 1 } })
        .toColourspace('b-w')
        .tiff({
          compression: 'ccittfax4',
          bitdepth: 1,
          miniswhite: true,
          tileHeight: Math.ceil(mask.height / 16) * 16,
        })
        .toBuffer();
      const entries = tiff.readUInt32LE(4);
      const tag = (id: number) => {
        for (let i = 0; i < tiff.readUInt16LE(entries); i++)
          if (tiff.readUInt16LE(entries + 2 + 12 * i) === id) return tiff.readUInt32LE(entries + 10 + 12 * i);
        return Number.NaN;
      };
      const strip = tiff.subarray(tag(273), tag(273) + tag(279));
      expect(equal(decodeG4(strip, mask.width, mask.height), mask)).toBe(true);
      // T.6 leaves no choice: two right encoders write the same codes.
      expect(Buffer.compare(Buffer.from(encodeG4(mask)), strip)).toBe(0);
    }
  });

  test('poppler shows the same points inside a PDF', () => {
    const mask = blobs(300, 200, 30, 2);
    const data = encodeG4(mask);
    const head =
      '%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n' +
      '3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 300 200]/Contents 4 0 R/Resources<</XObject<</M 5 0 R>>>>>>endobj\n' +
      '4 0 obj<</Length 23>>stream\n300 0 0 200 0 0 cm /M Do\nendstream endobj\n' +
      `5 0 obj<</Type/XObject/Subtype/Image/Width 300/Height 200/ImageMask true/Filter/CCITTFaxDecode/DecodeParms<</K -1/Columns 300/Rows 200/BlackIs1 false>>/Length ${data.length}>>stream\n`;
    const pdf = Buffer.concat([
      Buffer.from(head.replace('Length 23', 'Length 24'), 'latin1'),
      data,
      Buffer.from('\nendstream endobj\ntrailer<</Root 1 0 R/Size 6>>\n%%EOF\n', 'latin1'),
    ]);
    const dir = mkdtempSync(join(tmpdir(), 'kickflat-g4-'));
    try {
      writeFileSync(join(dir, 'mask.pdf'), pdf);
      execFileSync('pdftoppm', ['-mono', '-r', '72', join(dir, 'mask.pdf'), join(dir, 'mask')], {
        stdio: ['ignore', 'ignore', 'ignore'],
      });
      const pbm = execFileSync('cat', [join(dir, 'mask-1.pbm')]);
      expect(pbm.subarray(0, 11).toString('latin1')).toBe('P4\n300 200\n');
      expect(Buffer.compare(pbm.subarray(11), Buffer.from(msbRows(mask)))).toBe(0);
    } finally {
      rmSync(dir, { recursive: true });
    }
  });

  test('a full-size film comes back', () => {
    const film = blankMask(19370, 4960);
    for (const [x, y] of [
      [0, 0],
      [19369, 0],
      [0, 4959],
      [19369, 4959],
      [9695, 2480],
    ] as const)
      setBit(film, x, y);
    expect(equal(decodeG4(encodeG4(film), 19370, 4960), film)).toBe(true);
  });

  test('broken data is refused, never read past its end', () => {
    const bytes = encodeG4(blobs(300, 200, 30, 2));
    expect(() => decodeG4(bytes.subarray(0, bytes.length >> 1), 300, 200)).toThrow(RangeError);
    expect(() => decodeG4(new Uint8Array(40), 300, 200)).toThrow(/no known code/);
    expect(() => decodeG4(new Uint8Array(0), 1, 1)).toThrow(/breaks off/);
  });
});
