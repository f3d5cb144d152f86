import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { Picture } from '../../../core/raster/index.ts';
import { layerCoverage, lineCoverage, withoutLines } from '../../../core/separate/index.ts';

/** Drawn by the general-purpose renderer behind sharp, antialiased or not. */
async function drawn(svg: string, scale = 1): Promise<Picture> {
  const { data, info } = await sharp(Buffer.from(svg), { density: 96 * scale })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: Uint8Array.from(data) };
}

const ART = (
  shapes: string,
  key: string,
  rendering = 'auto',
) => `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200">
  <defs><linearGradient id="g"><stop offset="0" stop-color="#f2c53d"/><stop offset="1" stop-color="#7a2d16"/></linearGradient></defs>
  ${shapes}<g fill="none" stroke="${key}" stroke-linecap="round" shape-rendering="${rendering}">
  <circle cx="90" cy="100" r="60" stroke-width="6"/><path d="M20 180 L280 20" stroke-width="2.5"/><path d="M150 30 H270 V160" stroke-width="9"/></g></svg>`;
const TONES = '<rect width="300" height="200" fill="url(#g)"/>';

describe('line work among tones', () => {
  test('is found where it was drawn, and nothing else is', async () => {
    const picture = await drawn(ART(TONES, '#1b1714'));
    // The truth: the lines alone, on nothing.
    const truth = await drawn(ART('', '#1b1714'));
    const line = lineCoverage(picture, '#1b1714').planes[1]!;
    let wrong = 0;
    let off = 0;
    let inked = 0;
    for (let i = 0; i < line.length; i++) {
      const alpha = truth.data[4 * i + 3]!;
      if (alpha > 0) inked++;
      off += Math.abs(line[i]! - alpha);
      if (line[i]! >= 128 !== alpha >= 128 && Math.abs(alpha - 128) > 40) wrong++;
    }
    expect(inked).toBeGreaterThan(4000);
    expect(wrong).toBe(0);
    expect(off / inked).toBeLessThan(8);
  });

  test('a dark tone that only resembles the line, and art without it, give none', async () => {
    const none = await drawn(
      `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200"><defs><linearGradient id="g"><stop offset="0" stop-color="#ffffff"/><stop offset="1" stop-color="#3a2a20"/></linearGradient></defs>${TONES}</svg>`,
    );
    const line = lineCoverage(none, '#000000').planes[1]!;
    expect(line.filter((v) => v >= 128)).toHaveLength(0);
  });

  test('tones go on under a line by as much as is asked, and no dark edge of it stays in them', async () => {
    const picture = await drawn(ART(TONES, '#1b1714'));
    const plain = await drawn(ART(TONES, 'none'));
    const truth = await drawn(ART('', '#1b1714'));
    const clean = withoutLines(picture, ['#1b1714'], 4);
    const wide = withoutLines(picture, ['#1b1714'], 2);
    let farthest = 0;
    let holes = 0;
    let holesOfWide = 0;
    for (let i = 0; i < clean.width * clean.height; i++) {
      if (wide.data[4 * i + 3] === 0) holesOfWide++;
      if (clean.data[4 * i + 3] === 0) {
        holes++;
        // Nothing is left out but what lies under solid line.
        expect(truth.data[4 * i + 3]).toBe(255);
        continue;
      }
      for (let c = 0; c < 3; c++)
        farthest = Math.max(farthest, Math.abs(clean.data[4 * i + c]! - plain.data[4 * i + c]!));
    }
    // The gradient changes by less than a level a point; a dark fringe would be tens of levels off.
    expect(farthest).toBeLessThan(12);
    expect(holes).toBeGreaterThan(0);
    expect(holesOfWide).toBeGreaterThan(holes + 500);
  });
});

test('a layer is ink by what is drawn or by how dark it is', () => {
  const picture: Picture = {
    width: 4,
    height: 1,
    data: Uint8Array.of(0, 0, 0, 255, 255, 255, 255, 255, 128, 128, 128, 255, 0, 0, 0, 100),
  };
  expect([...layerCoverage(picture, 'alpha').planes[1]!]).toEqual([255, 255, 255, 100]);
  expect([...layerCoverage(picture, 'darkness').planes[1]!]).toEqual([255, 0, 127, 100]);
  expect([...layerCoverage(picture, 'darkness').planes[0]!]).toEqual([0, 255, 128, 155]);
});
