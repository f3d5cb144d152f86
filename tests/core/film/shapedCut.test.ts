import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import { type CutPath, inkCrossings, straightCut, wasteDashes } from '../../../core/film/cut.ts';
import { CUT_PRICES, cutBand, pricesByKind } from '../../../core/film/cutCosts.ts';
import type { FilmArt } from '../../../core/film/index.ts';
import { bestCut, planSeam } from '../../../core/film/seam.ts';
import { cheapestLanes, shapedCut } from '../../../core/film/shapedCut.ts';
import { blankMask } from '../../../core/raster/index.ts';
import { paint, seeded } from './testFace.ts';

const LANE = 0.25;

/** A film that is one band, `width` × `height` mm, inked where `inside` says. */
function bandFilm(
  width: number,
  height: number,
  dpi: number,
  inside: (u: number, v: number) => boolean,
): FilmArt {
  const s = dpi / 25.4;
  const mask = blankMask(Math.round(width * s), Math.round(height * s));
  const box = { x: 0, y: 0, width: (mask.width as number) / s, height: (mask.height as number) / s };
  paint(mask, box, dpi, box, inside);
  return { inkId: 'a', inkName: 'a', hex: '#000000', pull: 1, pulls: 1, meshPerCm: 77, mask, box, dpi };
}
/** Each crossing as films.json has it: its middle, and its length in mm. */
const crossingsOf = (film: FilmArt, path: CutPath) =>
  inkCrossings(film, path).map(({ x, y, length }) => [x, y, length]);
const total = (list: readonly (readonly number[])[]) => list.reduce((sum, one) => sum + one[2]!, 0);

describe('shaped cuts', () => {
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    test(`cost no more than the best of every allowed path through a small band, seed ${seed}`, () => {
      const random = seeded(seed);
      const cell = 0.25;
      const [rows, columns] = [32, 16];
      // Four prices, no way for an edge to face.
      const prices = Float32Array.of(0.02 + random(), 0.02 + random(), 1 + random(), 10 + random());
      const codes = Uint8Array.from({ length: rows * columns }, () => Math.floor(random() * 4));
      const cost = Array.from(codes, (code) => prices[code]!);
      const found = cheapestLanes({ rows, columns, cell, codes }, prices)!;
      // Brute force over the rule as it is written: 2 mm steps, lanes a quarter millimetre apart and 1 mm from the edges, at
      // most 8 lanes a step, slopes changing by at most 2, straight at both ends.
      const [first, last, steps, step] = [4, 12, 4, 2];
      const edge = (i: number, lane: number, slope: number) => {
        let sum = 0;
        for (let s = 0; s < 8; s++) {
          const t = (s + 0.5) / 8;
          sum +=
            cost[
              Math.floor(((i + t) * step) / cell) * columns + Math.floor(((lane + slope * t) * LANE) / cell)
            ]!;
        }
        return (sum / 8) * Math.hypot(step, slope * LANE);
      };
      let best = Infinity;
      const walk = (i: number, lane: number, slope: number, sum: number) => {
        if (sum >= best) return;
        if (i === steps) {
          if (slope === 0) best = sum;
          return;
        }
        for (let s = Math.max(-8, slope - 2); s <= Math.min(8, slope + 2); s++) {
          if (lane + s < first || lane + s > last) continue;
          walk(i + 1, lane + s, s, sum + CUT_PRICES.turn * Math.abs(s - slope) + edge(i, lane, s));
        }
      };
      for (let lane = first; lane <= last; lane++) walk(0, lane, 0, 0);
      expect(found.cost).toBeCloseTo(best, 5);
    });
  }

  test('a blank channel that winds through solid ink is found, and nothing is cut', () => {
    const middle = (v: number) => 10 + 5 * Math.sin(v / 22);
    const film = bandFilm(20, 200, 300, (u, v) => Math.abs(u - middle(v)) > 1.5);
    expect(total(crossingsOf(film, straightCut(film, film.box, 'across')))).toBeGreaterThan(90);
    const path = shapedCut(cutBand(film, film.box, 'across'), film.box, 'across')!;
    expect(crossingsOf(film, path)).toEqual([]);
    for (const [u, v] of path) expect(Math.abs(u - middle(v))).toBeLessThan(1.5);
  });

  test('a blank line of a knife’s own rules is found however long and walled in, down to a millimetre’s width, seed 31', () => {
    const random = seeded(31);
    for (let n = 0; n < 8; n++) {
      // A wave that bends nowhere tighter than 12 mm and leans no more than 35°, 1.1 to 1.8 mm wide, between walls of ink;
      // beside it stands the bait: a straight way that crosses one bar of 6 mm and is roomy and blank otherwise.
      const [swing, pace, wide, phase] = [
        1 + random() * 2.5,
        12 + random() * 10,
        1.1 + random() * 0.7,
        random() * 6,
      ];
      const bend = swing / pace / pace;
      if (1 / bend < 12 || swing / pace > Math.tan((35 * Math.PI) / 180)) continue;
      // It begins and ends straight, as a cut does.
      const ease = (v: number) => Math.min(1, Math.max(0, Math.min(v, 160 - v) / 25 - 0.16));
      const smooth = (t: number) => t * t * (3 - 2 * t);
      const middle = (v: number) => 7 + swing * Math.sin(v / pace + phase) * smooth(ease(v));
      const film = bandFilm(20, 160, 600, (u, v) => {
        if (u > 13) return v > 77 && v < 83;
        return Math.abs(u - middle(v)) > wide / 2;
      });
      const { crossings, path } = bestCut(film, film.box, 'across', true);
      expect({ n, wide, swing, pace, crossings }).toEqual({ n, wide, swing, pace, crossings: [] });
      expect(path.length).toBeGreaterThan(2);
    }
  });

  test('a straight blank column is cut straight, mid channel', () => {
    const film = bandFilm(20, 200, 300, (u) => u < 12 || u > 15);
    const path = shapedCut(cutBand(film, film.box, 'across'), film.box, 'across')!;
    expect(path.length).toBe(2);
    expect(crossingsOf(film, straightCut(film, film.box, 'across'))).toEqual([]);
    expect(straightCut(film, film.box, 'across')[0]![0]).toBeCloseTo(13.5, 1);
  });

  test('no bend is tighter than 8 mm: corners turn by less than a quarter radian every 2 mm', () => {
    const random = seeded(11);
    const discs = Array.from(
      { length: 60 },
      () => [random() * 20, random() * 200, 1 + random() * 3] as const,
    );
    const film = bandFilm(20, 200, 200, (u, v) =>
      discs.some(([a, b, r]) => (u - a) ** 2 + (v - b) ** 2 < r * r),
    );
    const path = shapedCut(cutBand(film, film.box, 'across'), film.box, 'across')!;
    for (let i = 2; i < path.length; i++) {
      const turn = (k: number) => Math.atan2(path[k]![0] - path[k - 1]![0], path[k]![1] - path[k - 1]![1]);
      expect(Math.abs(turn(i) - turn(i - 1))).toBeLessThan(0.25);
      expect(Math.hypot(path[i]![0] - path[i - 1]![0], path[i]![1] - path[i - 1]![1])).toBeGreaterThan(1.9);
    }
    // Ends run straight, square to the film's edge.
    expect(path[0]![0]).toBe(path[1]![0]);
    expect(total(crossingsOf(film, path))).toBeLessThanOrEqual(
      total(crossingsOf(film, straightCut(film, film.box, 'across'))) + 1e-9,
    );
  });

  test('lengthwise bands work the same way round', () => {
    const film = bandFilm(200, 20, 200, (u, v) => Math.abs(v - 10 - 4 * Math.sin(u / 25)) > 1.5);
    expect(crossingsOf(film, shapedCut(cutBand(film, film.box, 'along'), film.box, 'along')!)).toEqual([]);
  });

  test('the line that leads the knife stays 0.4 mm clear of ink and on the waste side', () => {
    const film = bandFilm(
      20,
      200,
      300,
      (u, v) => Math.abs(u - 10 - 5 * Math.sin(v / 22)) > 2 || Math.abs(v - 100) < 3,
    );
    const path = shapedCut(cutBand(film, film.box, 'across'), film.box, 'across')!;
    const dashes = wasteDashes(film, path);
    expect(dashes.length).toBeGreaterThan(10);
    const s = 300 / 25.4;
    const inked = (u: number, v: number) => {
      const [x, y] = [Math.floor(u * s), Math.floor((film.box.height - v) * s)];
      if (x < 0 || y < 0 || x >= (film.mask.width as number) || y >= (film.mask.height as number))
        return false;
      return ((film.mask.data[y * film.mask.stride + (x >> 5)]! >>> (x & 31)) & 1) === 1;
    };
    for (const dash of dashes) {
      for (const [u, v] of dash.points) {
        for (let a = 0; a < 16; a++) expect(inked(u + 0.4 * Math.cos(a), v + 0.4 * Math.sin(a))).toBe(false);
        // Left of the path as it runs upwards: towards the tail.
        const i = path.findIndex((p) => p[1] >= v);
        const [p, q] = [path[Math.max(0, i - 1)]!, path[Math.max(1, i)]!];
        const side = (q[0] - p[0]) * (v - p[1]) - (q[1] - p[1]) * (u - p[0]);
        expect(side).toBeGreaterThan(0);
      }
    }
  });

  test('no line of a cut runs over a cross-hair, a scale or a mark, wherever the cut lies, seed 5', () => {
    const random = seeded(5);
    let [dashes, near] = [0, 0];
    for (let n = 0; n < 8; n++) {
      const [mid, swing] = [7 + random() * 6, 3 + random() * 3];
      // Blank at the strip's ends, where hairs and scales stand; between them a winding channel.
      const film = bandFilm(
        20,
        200,
        200,
        (u, v) => v > 30 && v < 170 && Math.abs(u - mid - swing * Math.sin(v / 25)) > 2,
      );
      const mark = { x: mid - 1, y: 20, width: 2, height: 4 };
      const seam = planSeam(film, [film], film.box, 'across', [mark], { verniers: true, shaped: true });
      expect(seam.path.length).toBeGreaterThan(2);
      expect(seam.scales.length).toBe(2);
      const shapes = [...seam.first, ...seam.second];
      const boxes = (cut: boolean) =>
        shapes.flatMap((one) => {
          const box = one.kind === 'line' && one.width < 0.1 === cut ? boundsOf([one]) : null;
          return box ?? [];
        });
      const standing = [mark, ...boxes(false)];
      for (const one of boxes(true)) {
        dashes++;
        for (const other of standing) {
          const gap = Math.max(
            other.x - one.x - one.width,
            one.x - other.x - other.width,
            other.y - one.y - one.height,
            one.y - other.y - other.height,
          );
          expect(gap).toBeGreaterThan(0.3);
          if (gap < 3) near++;
        }
      }
    }
    // Cuts do come by the marks, or this would say nothing.
    expect(dashes).toBeGreaterThan(100);
    expect(near).toBeGreaterThan(20);
  });

  test('ink at an edge costs most, solid ink less, blank beside ink less again, clear film next to nothing', () => {
    const film = bandFilm(20, 20, 254, (u) => u > 10);
    const { codes, columns, cell } = cutBand(film, film.box, 'across');
    const prices = pricesByKind(CUT_PRICES);
    const at = (u: number) => prices[codes[80 * columns + Math.floor(u / cell)]! & 3];
    expect(at(3)).toBeCloseTo(CUT_PRICES.blank, 6);
    expect(at(9.8)).toBeCloseTo(CUT_PRICES.close, 6);
    expect(at(10.2)).toBeCloseTo(CUT_PRICES.edge, 6);
    expect(at(16)).toBeCloseTo(CUT_PRICES.solid, 6);
  });

  test('ink met square has no slant, ink met at 50° has 50°, by plain geometry', () => {
    for (const lean of [0, 20, 50]) {
      const t = Math.tan((lean * Math.PI) / 180);
      const film = bandFilm(20, 60, 600, (u, v) => Math.abs(v - 30 - (u - 10) * t) < 2);
      const [one, ...more] = inkCrossings(film, straightCut(film, film.box, 'across'));
      expect(more).toEqual([]);
      expect(Math.abs(one!.slantDeg - lean)).toBeLessThan(4);
      expect(one!.length).toBeCloseTo(4, 1);
    }
  });

  test('a slanting stripe is crossed nearly square, and in no more ink than straight', () => {
    const t = Math.tan((40 * Math.PI) / 180);
    const film = bandFilm(20, 120, 300, (u, v) => Math.abs(v - 60 - (u - 10) * t) < 2.5);
    const straight = inkCrossings(film, straightCut(film, film.box, 'across'));
    const { path, crossings } = bestCut(film, film.box, 'across', true);
    expect(straight[0]!.slantDeg).toBeGreaterThan(35);
    expect(crossings.length).toBe(1);
    expect(crossings[0]!.slantDeg).toBeLessThan(20);
    expect(crossings[0]!.length).toBeLessThanOrEqual(straight[0]!.length);
    expect(path.length).toBeGreaterThan(2);
  });

  test('the chosen cut never crosses more ink than the best straight one, seed 21', () => {
    const random = seeded(21);
    for (let n = 0; n < 25; n++) {
      const blobs = Array.from(
        { length: 40 },
        () => [random() * 20, random() * 120, 1 + random() * 5] as const,
      );
      const film = bandFilm(20, 120, 200, (u, v) =>
        blobs.some(([a, b, r]) => (u - a) ** 2 + (v - b) ** 2 < r * r),
      );
      const chosen = total(crossingsOf(film, bestCut(film, film.box, 'across', true).path));
      // Every straight line a tenth of the band from its edges, counted by itself.
      const s = 200 / 25.4;
      let least = Infinity;
      for (let x = Math.floor(2 * s) + 1; x < Math.floor(18 * s); x++) {
        let inked = 0;
        for (let y = 0; y < (film.mask.height as number); y++)
          inked += (film.mask.data[y * film.mask.stride + (x >> 5)]! >>> (x & 31)) & 1;
        least = Math.min(least, inked / s);
      }
      expect(chosen).toBeLessThanOrEqual(least + 0.15);
    }
  });

  test('ink under 0.2 mm along a cut is no crossing, and two pieces 0.1 mm apart are one', () => {
    const film = bandFilm(
      20,
      60,
      1200,
      (_u, v) => Math.abs(v - 10) < 0.07 || (Math.abs(v - 30) < 1 && Math.abs(v - 30) > 0.05),
    );
    const found = crossingsOf(film, straightCut(film, film.box, 'across'));
    expect(found.length).toBe(1);
    expect(found[0]![1]).toBeCloseTo(30, 1);
    expect(found[0]![2]).toBeCloseTo(1.9, 1);
  });
});
