import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compileKernels, kernelsFile } from '../../../build/kernels.mjs';
import { discHalfWidths } from '../../../core/raster/disc.ts';
import { distancePlain } from '../../../core/raster/distance.ts';
import { downsamplePlain } from '../../../core/raster/downsample.ts';
import { screenEnlargedPlain } from '../../../core/raster/enlarge.ts';
import { errorDiffusePlain } from '../../../core/raster/errorDiffuse.ts';
import {
  blankMask,
  blankPlane,
  type ColourTable,
  colourAxis,
  complement,
  distanceSquared,
  downsample,
  equal,
  errorDiffuse,
  grow,
  inkCount,
  type Mask,
  opening,
  type Picture,
  type Plane,
  screenEnlarged,
  setBit,
  sharesByTable,
  shrink,
  subtract,
  TABLE_STEPS,
  thinParts,
  thresholdMask,
} from '../../../core/raster/index.ts';
import { colourTablePlain } from '../../../core/raster/kernels/colourTablePlain.ts';
import { growRowsPlain } from '../../../core/raster/kernels/growPlain.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { thresholdPlain } from '../../../core/raster/kernels/thresholdPlain.ts';
import { warpRowsFast } from '../../../core/raster/kernels/warpFast.ts';
import { warpRows } from '../../../core/raster/kernels/warpPlain.ts';
import { signedWords, tailBits } from '../../../core/raster/mask.ts';
import { blobs, randomMask, stream, tidy } from './randomMask.ts';
import { gridOf, type Map2, softPlanes } from './warpCases.ts';

const fast = kernels() as Kernels;

test('the compiled kernels are those of the sources', async () => {
  const file = new URL('../../../core/raster/kernels/kernels.generated.ts', import.meta.url);
  expect(readFileSync(file, 'utf8')).toBe(kernelsFile(await compileKernels()));
});

test('the compiled kernels run here, so that the tests below compare two things', () => {
  expect(fast).not.toBeNull();
  expect(fast.growRows).toBeTypeOf('function');
});

function growPlain(mask: Mask, radius: number, shrinking: boolean): Mask {
  const out = blankMask(mask.width, mask.height);
  const { stride, height } = mask;
  const words = (mask.width + 31) >>> 5;
  const of = { stride, words, tail: tailBits(mask.width), height, half: discHalfWidths(radius) };
  growRowsPlain(signedWords(mask), signedWords(out), of, shrinking);
  return out;
}

function openBoth(mask: Mask, radius: number): void {
  const name = `${mask.width} × ${mask.height}, r ${radius}`;
  const core = growPlain(growPlain(mask, radius, true), radius, false);
  const open = opening(mask, radius);
  expect(tidy(open)).toBe(true);
  expect(equal(open, core), `opening ${name}`).toBe(true);
  expect(equal(thinParts(mask, radius), subtract(mask, core)), `thin parts ${name}`).toBe(true);
}

function growBoth(mask: Mask, radius: number): void {
  const name = `${mask.width} × ${mask.height}, r ${radius}`;
  const grown = grow(mask, radius);
  expect(tidy(grown)).toBe(true);
  expect(equal(grown, growPlain(mask, radius, false)), name).toBe(true);
  const small = shrink(mask, radius);
  expect(tidy(small)).toBe(true);
  expect(equal(small, growPlain(mask, radius, true)), name).toBe(true);
}

describe('growth and shrinking: both twins agree', () => {
  test('at every width from 1 to 130, empty, full and in between', () => {
    for (let width = 1; width <= 130; width++) {
      for (const [i, share] of [0, 0.02, 0.5, 0.98, 1].entries()) {
        const mask = randomMask(width, 1 + ((width * 7) % 40), share, width * 10 + i);
        for (const radius of [1, 2.3, 5, 9.9, 17]) {
          growBoth(mask, radius);
          openBoth(mask, radius);
        }
      }
    }
  });

  test('at heights and radii that cut bands at every place', () => {
    const next = stream(42);
    for (let i = 0; i < 12; i++)
      growBoth(
        blobs(9000 + Math.floor(next() * 3000), 300 + Math.floor(next() * 300), 300, i),
        1 + next() * 30,
      );
    growBoth(blobs(700, 500, 60, 99), 150);
    openBoth(blobs(700, 500, 60, 99), 40);
    openBoth(blobs(9001, 700, 500, 98), 6.1);
  });

  test('on solid and bare stretches longer than a disc, in every place of a row', () => {
    const next = stream(43);
    for (let i = 0; i < 14; i++) {
      // Bars from border to border and from somewhere to somewhere, their complement too: whole stretches are bare or solid.
      const [width, height] = [4000 + Math.floor(next() * 9000), 60 + Math.floor(next() * 90)];
      const mask = blankMask(width, height);
      for (let bar = 0; bar < 3; bar++) {
        const from = next() < 0.3 ? 0 : Math.floor(next() * width);
        const to = next() < 0.3 ? width : Math.min(width, from + Math.floor(next() * 9000));
        const top = next() < 0.3 ? 0 : Math.floor(next() * height);
        const bottom = next() < 0.3 ? height : Math.min(height, top + Math.floor(next() * 80));
        for (let y = top; y < bottom; y++) for (let x = from; x < to; x++) setBit(mask, x, y);
      }
      const radius = 1 + next() * 24;
      growBoth(mask, radius);
      growBoth(complement(mask), radius);
      openBoth(i % 2 ? mask : complement(mask), radius);
    }
  });

  test('a solid mask shrinks from its border by more than its last stretch is wide', () => {
    // A row of whole stretches and 128 to 384 points more, and radii on both sides of them.
    for (const width of [4096 + 128, 8192 + 130, 8192 + 384])
      for (const radius of [127, 140, 300, 500]) {
        const solid = complement(blankMask(width, 1010));
        expect(equal(shrink(solid, radius), growPlain(solid, radius, true)), `${width}, r ${radius}`).toBe(
          true,
        );
      }
  });

  test('on a full-size film with ink along its borders', () => {
    const film = blankMask(19370, 4960);
    const next = stream(7);
    for (let i = 0; i < 3000; i++) {
      const [x, y] = [Math.floor(next() * 19370), Math.floor(next() * 4960)];
      const side = i % 5;
      setBit(film, [0, 19369, x, x, x][side]!, [y, y, 0, 4959, y][side]!);
    }
    for (const radius of [4, 12.2]) {
      const grown = grow(film, radius);
      expect(equal(grown, growPlain(film, radius, false))).toBe(true);
      expect(equal(shrink(complement(film), radius), growPlain(complement(film), radius, true))).toBe(true);
      expect(inkCount(grown)).toBeGreaterThan(inkCount(film));
    }
  });
});

describe('warp: both twins agree', () => {
  const maps: [string, Map2][] = [
    ['enlarged', (x, y) => [x / 3.07 - 2, y / 3.07 - 3]],
    ['as it is', (x, y) => [x, y]],
    ['mirrored', (x, y) => [60 - x / 2, y / 2]],
    ['turned a quarter', (x, y) => [y / 2.2, 40 - x / 2.2]],
    ['turned and bent', (x, y) => [x / 2 + 4 * Math.sin(y / 30) - 5, y / 2 - x / 9 + 6]],
    ['reduced', (x, y) => [x * 4.7 - 30, y * 3.9 - 20]],
    ['enlarged a hundred times', (x, y) => [20 + x / 100, 20 + y / 100]],
    ['outside', (x, y) => [x + 9e5, y]],
  ];
  const filters = [false, true] as const;
  test.each(maps.flatMap(([name, map]) => filters.map((cubic) => [name, cubic, map] as const)))(
    '%s, bicubic %s',
    (_, cubic, map) => {
      const next = stream(3);
      for (let i = 0; i < 30; i++) {
        const whole = (n: number) => 1 + Math.floor(next() * n);
        const [w, h, width, height] = [whole(90), whole(70), whole(300), whole(150)];
        const planes = softPlanes(2 + (i % 11), w, h, i);
        const grid = gridOf(width, height, [8, 32, 20, 128][i % 4]!, map);
        const [x, y] = [32 * Math.floor(next() * 4), Math.floor(next() * 9)];
        const masks = () =>
          planes.slice(1).map((_plane, k) => randomMask(x + width + 5, y + height, 0.01, k));
        const [a, b] = [masks(), masks()];
        expect(warpRowsFast(fast, planes, w, h, grid, a, x, y, width, height, cubic)).toBe(true);
        warpRows(planes, w, h, grid, b, x, y, width, height, cubic);
        a.forEach((mask, k) => {
          expect(equal(mask, b[k]!), `case ${i}, plane ${k + 1}: ${w} × ${h} to ${width} × ${height}`).toBe(
            true,
          );
          expect(tidy(mask)).toBe(true);
        });
      }
    },
  );

  test.each(filters)(
    'planes of noise, where every cell is an edge and equals abound, bicubic %s',
    (cubic) => {
      const next = stream(12);
      const planes = Array.from({ length: 9 }, () =>
        Uint8Array.from({ length: 400 * 90 }, () => 85 * Math.floor(next() * 4)),
      );
      const grid = gridOf(1200, 270, 64, (x, y) => [x / 3, y / 3]);
      const masks = () => planes.slice(1).map(() => blankMask(1200, 270));
      const [a, b] = [masks(), masks()];
      warpRowsFast(fast, planes, 400, 90, grid, a, 0, 0, 1200, 270, cubic);
      warpRows(planes, 400, 90, grid, b, 0, 0, 1200, 270, cubic);
      for (const [k, mask] of a.entries()) expect(equal(mask, b[k]!), `plane ${k + 1}`).toBe(true);
      expect(a.every((mask) => inkCount(mask) > 0)).toBe(true);
    },
  );

  test('a wide film cut into many parts', () => {
    const planes = softPlanes(6, 3000, 500, 5);
    const grid = gridOf(9687, 700, 71, (x, y) => [x / 3.3 + y / 20, y / 1.5 - x / 60]);
    const masks = () => planes.slice(1).map(() => blankMask(9687, 700));
    const [a, b] = [masks(), masks()];
    warpRowsFast(fast, planes, 3000, 500, grid, a, 0, 0, 9687, 700);
    warpRows(planes, 3000, 500, grid, b, 0, 0, 9687, 700);
    for (const [k, mask] of a.entries()) expect(equal(mask, b[k]!), `plane ${k + 1}`).toBe(true);
  });

  test('a grid with a place that is no number is left to the plain twin', () => {
    const grid = gridOf(64, 64, 32, (x, y) => [x, y]);
    grid.xy[3] = Number.NaN;
    const out = [blankMask(64, 64)];
    expect(warpRowsFast(fast, softPlanes(2, 9, 9, 1), 9, 9, grid, out, 0, 0, 64, 64)).toBe(false);
  });
});

describe('sub-sampling: both twins agree', () => {
  test('at every width from 1 to 130, empty, full and in between', () => {
    for (let width = 1; width <= 130; width++)
      for (const [i, share] of [0, 0.1, 0.6, 1].entries()) {
        const mask = randomMask(width, 1 + ((width * 5) % 47), share, width * 10 + i);
        for (const factor of [2, 3, 4, 5, 6, 7, 8, 11, 16, 31, 32, 33]) {
          const plain = blankPlane(Math.ceil(width / factor), Math.ceil(mask.height / factor));
          downsamplePlain(mask, factor, plain);
          const same = Buffer.compare(downsample(mask, factor).data, plain.data) === 0;
          expect(same, `${width} × ${mask.height} by ${factor}`).toBe(true);
        }
      }
  });

  test('on a film of many bands', () => {
    const mask = blobs(9001, 801, 900, 5);
    for (const factor of [2, 3, 6, 13]) {
      const plain = blankPlane(Math.ceil(9001 / factor), Math.ceil(801 / factor));
      downsamplePlain(mask, factor, plain);
      expect(Buffer.compare(downsample(mask, factor).data, plain.data), `by ${factor}`).toBe(0);
    }
  });
});

describe('distances: both twins agree', () => {
  test('at every width from 1 to 130, empty, full and in between, in bands', () => {
    for (let width = 1; width <= 130; width++)
      for (const [i, share] of [0, 0.5, 0.97, 1].entries()) {
        const mask = randomMask(width, 1 + ((width * 3) % 37), share, width * 10 + i);
        const y = (width * 5) % mask.height;
        for (const band of [
          { y: 0, rows: mask.height },
          { y, rows: mask.height - y },
        ])
          for (const limit of [0, 1, 2.5, 7, 24]) {
            const plain = new Uint32Array(band.rows * width);
            distancePlain(mask, band, limit, plain);
            const found = distanceSquared(mask, band, limit);
            expect(
              plain.every((d, at) => found[at] === d),
              `${width} × ${mask.height}, limit ${limit}`,
            ).toBe(true);
          }
      }
  });

  test('in strips, with the widest limit and deep ink', () => {
    const mask = complement(blobs(1501, 900, 30, 6));
    for (const limit of [40, 254]) {
      const band = { y: 130, rows: 640 };
      const plain = new Uint32Array(band.rows * 1501);
      distancePlain(mask, band, limit, plain);
      const found = distanceSquared(mask, band, limit);
      expect(
        plain.every((d, i) => found[i] === d),
        `limit ${limit}`,
      ).toBe(true);
      expect(Math.max(...plain.subarray(0, 1501))).toBeGreaterThan(1000);
    }
  });
});

/** A plane of slopes and noise, all levels, with borders of 0 and 255. */
function tones(width: number, height: number, seed: number): Plane {
  const next = stream(seed);
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const slope = (255 * (x + y)) / (width + height);
      data[y * width + x] = x % 17 === 0 ? 255 : y % 13 === 0 ? 0 : Math.min(255, slope + 40 * next());
    }
  return { width, height, data };
}

describe('tone: both twins agree', () => {
  test('thresholds, at widths 1 to 130 and tiles of any size', () => {
    const next = stream(8);
    for (let width = 1; width <= 130; width++) {
      const [w, h] = [1 + Math.floor(next() * 40), 1 + Math.floor(next() * 9)];
      const data = Uint8Array.from({ length: w * h }, () => 1 + Math.floor(next() * 255));
      const tile = { width: w, height: h, shift: Math.floor(next() * 60), data };
      const plane = tones(width, 40, width);
      const out = blankMask(width, 40);
      thresholdPlain(plane, tile, out);
      expect(equal(thresholdMask(plane, tile), out), `width ${width}, tile ${w} × ${h}`).toBe(true);
      expect(tidy(out)).toBe(true);
    }
  });

  test('planes enlarged and cut to dots, at widths 1 to 130 and factors 1 to 23', () => {
    const next = stream(9);
    for (let width = 1; width <= 130; width++) {
      const factor = 1 + (width % 23);
      const plane = tones(
        Math.ceil(width / factor) + (width % 3),
        Math.ceil(40 / factor) + (width % 2),
        width,
      );
      if (width % 5 === 0) plane.data.fill(0, 0, plane.data.length >> 1);
      const [w, h] = [1 + Math.floor(next() * 70), 1 + Math.floor(next() * 9)];
      const data = Uint8Array.from({ length: w * h }, () => 1 + Math.floor(next() * 255));
      const tile = { width: w, height: h, shift: Math.floor(next() * 60), data };
      const [a, b] = [randomMask(width, 40, 0.3, 1), randomMask(width, 40, 0.3, 2)];
      screenEnlarged(plane, factor, tile, a);
      screenEnlargedPlain(plane, factor, tile, b);
      expect(equal(a, b), `width ${width}, factor ${factor}, tile ${w} × ${h}`).toBe(true);
      expect(tidy(a)).toBe(true);
    }
  });

  test('every quotient of an enlarged slope, at the widest factors too', () => {
    for (const factor of [64, 127, 128, 129]) {
      const plane = { width: 40, height: 3, data: tones(40, 3, factor).data };
      const tile = { width: 3, height: 1, shift: 1, data: Uint8Array.of(1, 100, 254) };
      const [a, b] = [blankMask(40 * factor, 3 * factor), blankMask(40 * factor, 3 * factor)];
      screenEnlarged(plane, factor, tile, a);
      screenEnlargedPlain(plane, factor, tile, b);
      expect(equal(a, b), `factor ${factor}`).toBe(true);
    }
  });

  test('error diffusion, at widths 1 to 130', () => {
    for (let width = 1; width <= 130; width++) {
      const plane = tones(width, 33, width);
      const out = blankMask(width, 33);
      errorDiffusePlain(plane, out);
      expect(equal(errorDiffuse(plane), out), `width ${width}`).toBe(true);
      expect(tidy(out)).toBe(true);
    }
  });

  test('planes larger than a band', () => {
    const plane = tones(3001, 900, 1);
    const out = blankMask(3001, 900);
    errorDiffusePlain(plane, out);
    expect(equal(errorDiffuse(plane), out)).toBe(true);
    const tile = { width: 61, height: 7, shift: 22, data: tones(61, 7, 3).data.map((v) => Math.max(1, v)) };
    const dots = blankMask(3001, 900);
    thresholdPlain(plane, tile, dots);
    expect(equal(thresholdMask(plane, tile), dots)).toBe(true);
  });
});

describe('shares by a table of colours: both twins agree', () => {
  test('on 1 to 19 planes, at nodes and between them, with any transparency', () => {
    const next = stream(71);
    for (let planes = 1; planes <= 19; planes++) {
      const axes = [0, 1, 2].map((c) =>
        colourAxis(
          [0, 255, 10 + c, 77, 128, 203 - c].concat(planes % 2 ? [11 + c] : []).sort((a, b) => a - b),
        ),
      ) as unknown as ColourTable['axes'];
      const nodes = axes.reduce((product, { levels }) => product * levels.length, 1);
      const shares = new Uint16Array(nodes * planes);
      for (let node = 0; node < nodes; node++) {
        // Some shares are 0, as in tables of inks; of one the whole.
        const raw = Array.from({ length: planes }, () => (next() < 0.4 ? 0 : next()));
        const sum = raw.reduce((a, b) => a + b, 1e-9);
        raw.forEach((v, p) => {
          shares[node * planes + p] = Math.round((v / sum) * 255 * TABLE_STEPS);
        });
      }
      // More points than a band, and as many as end within one.
      const points = planes === 7 ? 20001 : 900 + planes;
      const data = Uint8Array.from({ length: 4 * points }, (_, i) => {
        if (i % 4 < 3) return next() < 0.2 ? axes[(i % 4) as 0 | 1 | 2].levels[3]! : Math.floor(256 * next());
        return next() < 0.6 ? 255 : next() < 0.3 ? 0 : Math.floor(256 * next());
      });
      const picture: Picture = { width: points, height: 1, data };
      const plain = Array.from({ length: planes }, () => new Uint8Array(points));
      colourTablePlain(picture, { planes, axes, shares }, plain);
      const made = sharesByTable(picture, { planes, axes, shares });
      made.forEach((plane, p) => {
        expect(Buffer.compare(plane, plain[p]!), `plane ${p} of ${planes}`).toBe(0);
      });
    }
  });
});
