import { describe, expect, test } from 'vitest';
import {
  blankMask,
  blankWay,
  type CellGrid,
  FACING,
  feelEdges,
  INKED,
  inkCells,
  MIXED,
} from '../../../core/raster/index.ts';
import { blankWayPlain } from '../../../core/raster/kernels/blankWayPlain.ts';
import { inkCellsFast } from '../../../core/raster/kernels/cellsFast.ts';
import { inkCellsPlain } from '../../../core/raster/kernels/cellsPlain.ts';
import { feelEdgesFast } from '../../../core/raster/kernels/edgesFast.ts';
import { feelEdgesPlain } from '../../../core/raster/kernels/edgesPlain.ts';
import { inkAlongFast } from '../../../core/raster/kernels/inkAlongFast.ts';
import { inkAlongPlain, RUN } from '../../../core/raster/kernels/inkAlongPlain.ts';
import { walkLanesFast } from '../../../core/raster/kernels/lanesFast.ts';
import { type LaneWalk, walkLanesPlain } from '../../../core/raster/kernels/lanesPlain.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { blobs, stream } from './randomMask.ts';

const fast = kernels() as Kernels;

/** A picture of cells, 1 where the mask of discs and bars has ink. */
function cells(rows: number, columns: number, count: number, seed: number): Uint8Array {
  const mask = blobs(columns, rows, count, seed);
  return Uint8Array.from({ length: rows * columns }, (_, at) => {
    const [x, y] = [at % columns, Math.floor(at / columns)];
    return (mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1;
  });
}

describe('cells by the kernel', () => {
  test('are those of the plain twin, on grids of any size and place, also beyond the mask', () => {
    const random = stream(5);
    for (let tried = 0; tried < 300; tried++) {
      const [width, height] = [1 + Math.floor(random() * 200), 1 + Math.floor(random() * 120)];
      const mask = blobs(width, height, Math.floor(random() * 12), tried);
      const [x, y] =
        tried % 3 === 0 ? [0, 0] : ([1, 2].map(() => Math.floor(random() * 900) - 300) as [number, number]);
      const per = tried % 4 === 0 ? 1 + Math.floor(random() * 4) : 0.4 + random() * 6;
      const grid: CellGrid = {
        x,
        y,
        left: x + random() * width * 1.4 - 0.2 * width,
        above: y + random() * height * 1.4 - 0.2 * height,
        per,
        wide: 1 + Math.floor(random() * 50),
        high: 1 + Math.floor(random() * 50),
        upright: tried % 2 === 0,
      };
      expect(inkCellsFast(fast, mask, grid), `${width} × ${height}, ${JSON.stringify(grid)}`).toEqual(
        inkCellsPlain(mask, grid),
      );
    }
  });

  test('have ink where any of their pixels has, from the lowest row up', () => {
    const mask = blankMask(8, 6);
    // One pixel, in the second row from the top: of cells of two pixels it lies in the third from the left, in the upper row of three.
    mask.data[mask.stride] = 1 << 5;
    const grid = { x: 0, y: 0, left: 0, above: 0, per: 2, wide: 4, high: 3 };
    expect([...inkCells(mask, { ...grid, upright: false })]).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0]);
    expect([...inkCells(mask, { ...grid, upright: true })]).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0]);
    expect(inkCells(mask, { ...grid, left: -100, upright: true }).every((cell) => cell === 0)).toBe(true);
  });
});

describe('edges by the kernel', () => {
  test('are those of the plain twin at every size', () => {
    const random = stream(21);
    for (let tried = 0; tried < 300; tried++) {
      const [rows, columns] = [1 + Math.floor(random() * 60), 1 + Math.floor(random() * 60)];
      const reach = 1 + (tried % 7);
      const share = random();
      const ink =
        tried % 3 === 0
          ? Uint8Array.from({ length: rows * columns }, () => (random() < share ? 1 : 0))
          : cells(rows, columns, Math.floor(random() * 12), tried);
      const a = feelEdgesFast(fast, ink, rows, columns, reach, 16);
      const b = feelEdgesPlain(ink, rows, columns, reach, 16);
      expect(a, `${rows} × ${columns}, reach ${reach}`).toEqual(b);
      expect(a.every((code, at) => ((code & INKED) !== 0) === (ink[at] === 1))).toBe(true);
    }
  });

  test('face as the ink does: a bar down the rows faces across them, one along them down', () => {
    const upright = Uint8Array.from({ length: 40 * 40 }, (_, at) => (at % 40 < 20 ? 1 : 0));
    const lying = Uint8Array.from({ length: 40 * 40 }, (_, at) => (at < 800 ? 1 : 0));
    // Eight sixteenths of half a turn are a quarter.
    expect(feelEdges(upright, 40, 40, 4, 16)[20 * 40 + 20]).toBe(9 * FACING + MIXED);
    expect(feelEdges(lying, 40, 40, 4, 16)[20 * 40 + 20]).toBe(1 * FACING + MIXED);
    expect(feelEdges(lying, 40, 40, 4, 16)[5 * 40 + 20]).toBe(INKED);
    expect(() => feelEdges(lying, 40, 40, 8, 16)).toThrow(RangeError);
  });
});

/** A walk down a band whose prices repeat in places, as bare film does. */
function walkOf(seed: number): LaneWalk {
  const random = stream(seed);
  const whole = (most: number) => Math.floor(random() * most);
  const [steepest, laneCells] = [1 + whole(8), 1 + whole(2)];
  const [lanes, steps, samples] = [1 + whole(40), 1 + whole(30), 1 + whole(5)];
  const columns = (lanes + 1) * laneCells + 8;
  const rows = steps * samples;
  const kinds = 1 + whole(80);
  const slopes = 2 * steepest + 1;
  const flat = Uint8Array.from({ length: rows }, () => (random() < 0.5 ? 1 : 0));
  return {
    columns,
    codes: Uint8Array.from({ length: rows * columns }, (_, at) =>
      flat[Math.floor(at / columns)] ? 0 : whole(kinds),
    ),
    lanes,
    laneCells,
    firstCell: 4,
    steps,
    samples,
    places: Int32Array.from({ length: rows }, (_, i) => i),
    offsets: Int32Array.from({ length: slopes * samples }, (_, i) =>
      Math.floor((Math.floor(i / samples) - steepest) * (((i % samples) + 0.5) / samples) * laneCells),
    ),
    steepest,
    sharpest: 1 + whole(3),
    turn: 0.01,
    // Some of one price, so that ways are equally good.
    prices: Float64Array.from({ length: slopes * kinds }, () => (whole(2) ? 0.5 : random())),
    kinds,
  };
}

describe('walks down a band by the kernel', () => {
  test('are those of the plain twin to the last bit', () => {
    for (let seed = 1; seed <= 250; seed++) {
      const walk = walkOf(seed);
      const [a, b] = [walkLanesFast(fast, walk), walkLanesPlain(walk)];
      expect(a.best, `seed ${seed}`).toEqual(b.best);
      expect(a.came, `seed ${seed}`).toEqual(b.came);
      expect(a.best.every((price) => !Number.isNaN(price))).toBe(true);
    }
  });
});

describe('ink along a path by the kernel', () => {
  test('is that of the plain twin, on paths within the mask and beyond it', () => {
    const random = stream(17);
    let found = 0;
    for (let tried = 0; tried < 300; tried++) {
      const [width, height] = [1 + Math.floor(random() * 200), 1 + Math.floor(random() * 120)];
      const mask = blobs(width, height, Math.floor(random() * 30), tried);
      const [x, y] = [Math.floor(random() * 900) - 300, Math.floor(random() * 900) - 300];
      const [left, top, scale] = [random() * 100 - 50, random() * 100, 1 + random() * 20];
      const count = 2 + Math.floor(random() * 6);
      const corners = Float64Array.from({ length: 2 * count }, (_, i) =>
        i % 2 === 0
          ? left + (x + (1.2 * random() - 0.1) * width) / scale
          : top - (y + (1.2 * random() - 0.1) * height) / scale,
      );
      const looks = Int32Array.from({ length: count - 1 }, () => 1 + Math.floor(random() * 300));
      const path = { left, top, scale, x, y, corners, looks, feel: 5 / scale, reach: 1 + (tried % 5) };
      const runs = inkAlongFast(fast, mask, path);
      expect(runs, `case ${tried}`).toEqual(inkAlongPlain(mask, path));
      found += runs.length / RUN;
    }
    expect(found).toBeGreaterThan(300);
  });

  test('tells runs by their looks, and which way the ink lies from their ends', () => {
    // A bar of 10 × 20 pixels from column 20 on; a path along row 10 with two looks a pixel.
    const mask = blankMask(50, 20);
    for (let row = 0; row < 20; row++) mask.data[row * mask.stride] = 0x3ff << 20;
    const corners = Float64Array.of(0, 9.5, 50, 9.5);
    const path = {
      left: 0,
      top: 20,
      scale: 1,
      x: 0,
      y: 0,
      corners,
      looks: Int32Array.of(100),
      feel: 3,
      reach: 3,
    };
    const [from, to, gx, gy, , ox, oy, ...more] = inkAlongPlain(mask, path);
    expect([from, to, more.length]).toEqual([40, 60, 1]);
    expect([gx! > 5, gy, ox! < -5, oy]).toEqual([true, 0, true, 0]);
  });
});

describe('a blank way by the kernel', () => {
  test('is there where the plain twin finds one', () => {
    const random = stream(23);
    const ways = [0, 0];
    for (let tried = 0; tried < 400; tried++) {
      const [rows, columns] = [1 + Math.floor(random() * 60), 1 + Math.floor(random() * 90)];
      const codes = cells(rows, columns, Math.floor(random() * 14), tried).map(
        (ink) => ink * INKED + (random() < 0.3 ? MIXED : 0) + FACING * Math.floor(random() * 17),
      );
      const found = blankWay(codes, columns);
      expect(found, `${rows} × ${columns}, case ${tried}`).toBe(blankWayPlain(codes, columns));
      ways[found ? 1 : 0]! += 1;
    }
    expect(Math.min(...ways)).toBeGreaterThan(40);
  });

  test('goes aside by a cell a row at most', () => {
    const way = (...rows: string[]) =>
      blankWay(
        Uint8Array.from(rows.join(''), (cell) => (cell === '#' ? INKED : 0)),
        rows[0]!.length,
      );
    expect(way('.####', '#.###', '##.##', '###.#')).toBe(true);
    expect(way('.####', '##.##', '##.##')).toBe(false);
    expect(way('####.', '.####')).toBe(false);
  });
});
