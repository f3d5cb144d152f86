import { describe, expect, test } from 'vitest';
import { feelEdges } from '../../../core/raster/index.ts';
import { feelEdgesFast } from '../../../core/raster/kernels/edgesFast.ts';
import { feelEdgesPlain } from '../../../core/raster/kernels/edgesPlain.ts';
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
      expect(a.mixed, `${rows} × ${columns}, reach ${reach}`).toEqual(b.mixed);
      expect(a.facing, `${rows} × ${columns}, reach ${reach}`).toEqual(b.facing);
    }
  });

  test('face as the ink does: a bar down the rows faces across them, one along them down', () => {
    const upright = Uint8Array.from({ length: 40 * 40 }, (_, at) => (at % 40 < 20 ? 1 : 0));
    const lying = Uint8Array.from({ length: 40 * 40 }, (_, at) => (at < 800 ? 1 : 0));
    // Eight sixteenths of half a turn are a quarter.
    expect(feelEdges(upright, 40, 40, 4, 16).facing[20 * 40 + 20]).toBe(9);
    expect(feelEdges(lying, 40, 40, 4, 16).facing[20 * 40 + 20]).toBe(1);
    expect(feelEdges(lying, 40, 40, 4, 16).facing[5 * 40 + 20]).toBe(0);
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
  const facings = 16;
  const slopes = 2 * steepest + 1;
  const flat = Uint8Array.from({ length: rows }, () => (random() < 0.5 ? 1 : 0));
  const prices = [0.02, 4, 10, 12];
  return {
    columns,
    cost: Float32Array.from({ length: rows * columns }, (_, at) =>
      flat[Math.floor(at / columns)] ? 0.02 : prices[whole(4)]!,
    ),
    facing: Uint8Array.from({ length: rows * columns }, (_, at) =>
      flat[Math.floor(at / columns)] ? 0 : whole(facings + 1),
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
    weights: Float64Array.from({ length: slopes }, () => random()),
    aslant: Float64Array.from({ length: slopes * (facings + 1) }, () => 1 + random()),
    facings,
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
