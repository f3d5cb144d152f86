import { expect, test } from 'vitest';
import { deltaE00, labOfHex } from '../../../core/colour/index.ts';
import type { Picture } from '../../../core/raster/index.ts';
import { groundOf, suggestInks } from '../../../core/separate/index.ts';
import { drawFlatArt, svgOf } from '../../reference/separation/flatArt.ts';
import { render, throughJpeg } from '../../reference/separation/measure.ts';

const EIGHT = ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440', '#b58fd0', '#7a3b34', '#c9d36b'];

/** Discs of each colour on a clear ground, each smaller than the one before, the last 0.2 % of what is inked. */
const discs = (hexes: readonly string[], last = 5) => {
  const radius = [60, 50, 40, 34, 26, 20, 12, last];
  const body = hexes.map(
    (hex, i) =>
      `<circle cx="${70 + (i % 4) * 120.4}" cy="${70 + Math.floor(i / 4) * 120.7}" r="${radius[i]}" fill="${hex}"/>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="500" height="260">${body.join('')}</svg>`;
};

test('eight flat colours are found exactly, soft edges or not, light to dark, each with its own name', async () => {
  const found = suggestInks(await render(discs(EIGHT)), null);
  expect(found.map((f) => f.hex).sort()).toEqual([...EIGHT].sort());
  const light = found.map((f) => labOfHex(f.hex).l);
  expect(light).toEqual([...light].sort((a, b) => b - a));
  expect(new Set(found.map((f) => f.name)).size).toBe(8);
  expect(found.reduce((n, f) => n + f.share, 0)).toBeCloseTo(1, 9);
});

test('the drawings’ inks are all found and no soft edge is taken for one', async () => {
  for (let seed = 0; seed < 12; seed++) {
    const art = drawFlatArt(seed);
    const soft = await render(svgOf(art, false, 480));
    const found = suggestInks(soft, null, { ground: art.ground }).map((f) => f.hex);
    for (const hex of found) expect(art.inks, `drawing ${seed}`).toContain(hex);
    expect(found.length).toBeGreaterThanOrEqual(4);
  }
});

test('JPEG art at quality 75 gives its inks within ΔE00 2 and no others', async () => {
  const paper = '#ffffff';
  const soft = await throughJpeg(await render(discs(EIGHT, 16)), 75, paper);
  const found = suggestInks(soft, null, { ground: groundOf(soft) });
  expect(found).toHaveLength(8);
  for (const hex of EIGHT)
    expect(Math.min(...found.map((f) => deltaE00(labOfHex(f.hex), labOfHex(hex))))).toBeLessThan(2);
});

test('fewer inks than colours joins what is alike and keeps the accents', async () => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200"><rect width="150" height="200" fill="#1b2440"/><rect x="150" width="150" height="200" fill="#202a48"/><circle cx="75" cy="100" r="6" fill="#e8613c"/></svg>`;
  const found = suggestInks(await render(svg), 2).map((f) => f.hex);
  expect(found).toHaveLength(2);
  expect(found).toContain('#e8613c');
});

test('inks are snapped to the shelf and keep its names', async () => {
  const shelf = [
    { name: 'Old coral', hex: '#e05a3a' },
    { name: 'Deep sea', hex: '#1a2040' },
    { name: 'Lime', hex: '#b0e020' },
  ];
  const found = suggestInks(await render(discs(['#e8613c', '#1b2440'])), null, { shelf });
  expect(found.map((f) => f.name)).toEqual(['Old coral', 'Deep sea']);
});

test('shaded art gives as many inks as asked', async () => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200"><defs><linearGradient id="g" y2="1"><stop stop-color="#102040"/><stop offset=".5" stop-color="#e8a060"/><stop offset="1" stop-color="#fff0d0"/></linearGradient></defs><rect width="300" height="200" fill="url(#g)"/></svg>`;
  const found = suggestInks(await render(svg), 5);
  expect(found).toHaveLength(5);
  expect(labOfHex(found[0]!.hex).l).toBeGreaterThan(80);
  expect(labOfHex(found[4]!.hex).l).toBeLessThan(30);
});

test('nothing inked, nothing suggested', () => {
  expect(suggestInks({ width: 4, height: 4, data: new Uint8Array(64) }, null)).toEqual([]);
});

test('an even border is paper; a transparent or mixed one is not', async () => {
  const flat = (hex: string, more = '') =>
    render(
      `<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><rect width="60" height="40" fill="${hex}"/>${more}</svg>`,
    );
  expect(groundOf(await flat('#d9c7a3', '<circle cx="30" cy="20" r="9"/>'))).toBe('#d9c7a3');
  expect(
    groundOf(await throughJpeg(await flat('#ffffff', '<circle cx="30" cy="20" r="9"/>'), 75, '#fff')),
  ).toBe('#ffffff');
  expect(groundOf(await flat('#d9c7a3', '<rect width="30" height="40"/>'))).toBeNull();
  const clear: Picture = { width: 2, height: 2, data: new Uint8Array(16) };
  expect(groundOf(clear)).toBeNull();
});
