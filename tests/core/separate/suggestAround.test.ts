import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { deltaE00, labOfHex } from '../../../core/colour/index.ts';
import type { Picture } from '../../../core/raster/index.ts';
import { artToTry, inkFit, suggestAround, suggestInks } from '../../../core/separate/index.ts';
import { render } from '../../reference/separation/measure.ts';

const WOOD = '#dcb98a';
/** Sets of inks as a print room mixes them, two to eight of them; the demonstration's own among them. */
const PALETTES = [
  ['#1b2440', '#e8613c'],
  ['#f2b632', '#2f8f83', '#1b2440'],
  ['#f7f3e8', '#f2b632', '#e8613c', '#1b2440'],
  ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440'],
  ['#ffffff', '#ffd84a', '#d7263d', '#1a7a4c', '#15507a', '#101014'],
  ['#fbe7c6', '#f4a259', '#bc4b51', '#8cb369', '#5b8e7d', '#3b3561', '#0d0d12'],
  ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440', '#b58fd0', '#7a3b34', '#c9d36b'],
] as const;
/** The smallest accent's share of what is inked: just above the thousandth that none may be missed from. */
const ACCENT = 0.0012;

/** Stripes of every ink, outlined in the last, and the first as one small square: its only area. */
function drawn(inks: readonly string[], seed: number): string {
  const [accent, ...rest] = inks as [string, ...string[]];
  const [w, h] = [900, 300];
  const stripes = rest.map((hex, i) => {
    const x = (i * w) / rest.length;
    const lean = 30 + ((seed * 37 + i * 53) % 60);
    return `<path d="M${x} 0h${w / rest.length + 1}l${lean} ${h}h${-w / rest.length - 1}z" fill="${hex}"/>`;
  });
  const side = Math.sqrt(ACCENT * w * h);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}"><rect width="${w}" height="${h}" fill="${rest[0]}"/>${stripes.join('')}<path d="M${60 + seed * 11} 40h${side}v${side}h${-side}z" fill="${accent}"/><circle cx="${500 + seed * 9}" cy="170" r="70" fill="none" stroke="${rest.at(-1)}" stroke-width="5"/></svg>`;
}

for (const inks of PALETTES)
  test(`${inks.length} inks of flat art are found, each within ΔE00 1, the accent of 0.12 % too, no other`, async () => {
    for (const seed of [1, 2, 3]) {
      const art = await render(drawn(inks, seed));
      for (const count of [null, inks.length]) {
        const found = suggestInks(art, count);
        expect(found, `seed ${seed}, ${count}`).toHaveLength(inks.length);
        for (const hex of inks)
          expect(Math.min(...found.map((f) => deltaE00(labOfHex(f.hex), labOfHex(hex))))).toBeLessThan(1);
      }
    }
  });

test('one fewer and one more stand beside the advised inks, with how far each is off', async () => {
  const inks = PALETTES[3];
  const art = await render(drawn(inks, 1));
  const tried = suggestAround(art, null, { bare: WOOD, toned: false });
  expect(tried.map((t) => t.inks.length)).toEqual([4, 5, 6]);
  expect(tried.map((t) => t.advised)).toEqual([false, true, false]);
  // Flat art has no sixth colour: a shade of its soft edges, which brings it no nearer.
  expect(tried.map((t) => t.beyond)).toEqual([false, false, true]);
  const [fewer, right, beyond] = tried as [(typeof tried)[0], (typeof tried)[0], (typeof tried)[0]];
  expect(right.fit.mean).toBeLessThan(0.1);
  expect(right.fit.off).toBe(0);
  // The accent goes first: little of the area, and seen at a glance.
  expect(fewer.fit.mean).toBeGreaterThan(right.fit.mean);
  expect(beyond.fit.mean).toBeGreaterThan(right.fit.mean - 0.1);
  for (const ink of right.inks) expect(beyond.inks.map((i) => i.hex)).toContain(ink.hex);
  const many = suggestAround(art, 8, { bare: WOOD, toned: false });
  expect(many.map((t) => t.inks.length)).toEqual([4, 5, 6]);
  const asked = suggestAround(art, 3, { bare: WOOD, toned: false });
  expect(asked.map((t) => t.inks.length)).toEqual([2, 3, 4]);
  const means = asked.map((t) => t.fit.mean);
  expect(means).toEqual([...means].sort((a, b) => b - a));
});

test('the demonstration’s own inks are its art: no hatching is taken for other colours', async () => {
  const svg = readFileSync(new URL('../../../build/demo/night-heron.svg', import.meta.url), 'utf8');
  // 72 points an inch, as the studio draws it to look at.
  const art = await render(svg);
  const tried = suggestAround(art, null, { bare: WOOD, toned: false });
  expect(tried.map((t) => t.inks.length)).toEqual([4, 5, 6]);
  const own = ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440'];
  expect(tried[1]!.inks.map((i) => i.hex)).toEqual(own);
  expect(tried[1]!.fit.mean).toBeLessThan(0.2);
  expect(tried[1]!.fit.most).toBeLessThan(1);
  expect(tried[1]!.fit.off).toBeLessThan(0.005);
  expect(tried[0]!.fit.mean).toBeGreaterThan(1);
});

test('one more comes from the shelf where the shelf has one that brings the art nearer', async () => {
  const art = await render(drawn(PALETTES[1], 1));
  const shelf = PALETTES[3].map((hex) => ({ name: `own ${hex}`, hex }));
  const tried = suggestAround(art, 2, { bare: WOOD, toned: false, shelf });
  expect(tried.map((t) => t.inks.length)).toEqual([1, 2, 3]);
  for (const set of tried) for (const ink of set.inks) expect(ink.name).toMatch(/^own #/);
});

test('figures are ΔE00 of the art against its proof, point by point', () => {
  const data = new Uint8Array(40 * 20 * 4);
  for (let i = 0; i < 800; i++) data.set(i % 40 < 30 ? [232, 97, 60, 255] : [224, 90, 58, 255], i * 4);
  const art: Picture = { width: 40, height: 20, data };
  const fit = inkFit(artToTry(art, false), [{ hex: '#e8613c' }], { bare: WOOD, toned: false });
  const off = deltaE00(labOfHex('#e8613c'), labOfHex('#e05a3a'));
  expect(fit.mean).toBeCloseTo(off / 4, 6);
  expect(fit.most).toBeCloseTo(off, 6);
  expect(fit.off).toBe(off > 5 ? 0.25 : 0);
  expect([...fit.proof.data.subarray(0, 4)]).toEqual([232, 97, 60, 255]);
});

/** ImageMagick resizes in linear light when told so: a general-purpose peer for reducing art. */
const magick = (() => {
  try {
    execFileSync('convert', ['-version']);
    return true;
  } catch {
    return false;
  }
})();
test.skipIf(!magick)('small art is what a box average in linear light gives (ImageMagick)', async () => {
  const art = await render(drawn(PALETTES[4], 2));
  const small = artToTry(art, true).picture;
  const width = art.width as number;
  const height = art.height as number;
  expect(small.width).toBe(Math.ceil(width / 2));
  const even = { width: width - (width % 2), height: height - (height % 2) };
  const png = await sharp(Buffer.from(art.data), { raw: { width, height, channels: 4 } })
    .extract({ left: 0, top: 0, ...even })
    .png()
    .toBuffer();
  const raw = execFileSync(
    'convert',
    [
      'png:-',
      '-colorspace',
      'RGB',
      '-filter',
      'box',
      '-resize',
      '50%',
      '-colorspace',
      'sRGB',
      '-depth',
      '8',
      'rgba:-',
    ],
    { input: png, maxBuffer: 1 << 26 },
  );
  let worst = 0;
  for (let y = 0; y < even.height / 2; y++)
    for (let x = 0; x < even.width / 2; x++)
      for (let c = 0; c < 3; c++)
        worst = Math.max(
          worst,
          Math.abs(
            (small.data[4 * (y * (small.width as number) + x) + c] as number) -
              (raw[4 * (y * (even.width / 2) + x) + c] as number),
          ),
        );
  expect(worst).toBeLessThanOrEqual(1);
});

test('kept inks stay among the suggested ones, counted with them', async () => {
  const inks = PALETTES[4];
  const art = await render(drawn(inks, 1));
  const found = suggestInks(art, 3, { kept: ['#d7263d'] }).map((f) => f.hex);
  expect(found).toHaveLength(3);
  expect(found).toContain('#d7263d');
  // A protected ink that the art hardly has is kept too.
  expect(suggestInks(art, 4, { kept: ['#8844cc'] }).map((f) => f.hex)).toContain('#8844cc');
});

test('shaded art is advised more inks than a plain ramp, and one more brings it nearer', async () => {
  const gradient = (stops: readonly string[]) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="320" height="160"><defs><linearGradient id="g">${stops
      .map((hex, i) => `<stop offset="${i / (stops.length - 1)}" stop-color="${hex}"/>`)
      .join('')}</linearGradient></defs><rect width="320" height="160" fill="url(#g)"/></svg>`;
  const plain = await render(gradient(['#1b2440', '#dfe4f0']));
  const rich = await render(gradient(['#d7263d', '#ffd84a', '#1a7a4c', '#15507a', '#101014', '#ffffff']));
  const few = suggestInks(plain, null).length;
  const many = suggestInks(rich, null).length;
  expect(many).toBeGreaterThan(few);
  const spot = suggestAround(rich, 5, { bare: WOOD, toned: false }).map((t) => t.fit.mean);
  expect(spot).toEqual([...spot].sort((a, b) => b - a));
  // In dots colours mix, so that the same inks come nearer than flat ones.
  const toned = suggestAround(rich, 5, { bare: WOOD, toned: true });
  toned.forEach((t, i) => {
    expect(t.fit.mean).toBeLessThan(spot[i] as number);
  });
});
