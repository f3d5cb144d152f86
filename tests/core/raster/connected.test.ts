import { describe, expect, test } from 'vitest';
import {
  blankMask,
  components,
  draw,
  dropSpecks,
  equal,
  getBit,
  holes,
  joined,
  type Mask,
  maskOf,
  setBit,
} from '../../../core/raster/index.ts';
import { blobs, randomMask } from './randomMask.ts';

type Piece = { area: number; x: number; y: number; box: number[]; points: [number, number][] };

/** Pieces of points that are `ink`, by walking from neighbour to neighbour. */
function byWalking(mask: Mask, ink: boolean, diagonal: boolean): Piece[] {
  const { width, height } = mask;
  const seen = new Uint8Array(width * height);
  const out: Piece[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (seen[y * width + x] || getBit(mask, x, y) !== ink) continue;
      const points: [number, number][] = [[x, y]];
      seen[y * width + x] = 1;
      for (let i = 0; i < points.length; i++) {
        const [px, py] = points[i]!;
        for (let dy = -1; dy <= 1; dy++)
          for (let dx = -1; dx <= 1; dx++) {
            if (!diagonal && dx !== 0 && dy !== 0) continue;
            const [nx, ny] = [px + dx, py + dy];
            if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue;
            if (seen[ny * width + nx] || getBit(mask, nx, ny) !== ink) continue;
            seen[ny * width + nx] = 1;
            points.push([nx, ny]);
          }
      }
      const xs = points.map((p) => p[0]);
      const ys = points.map((p) => p[1]);
      const box = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
      out.push({ area: points.length, x, y, box, points });
    }
  return out;
}

const shape = (found: ReturnType<typeof components>) =>
  found.map(({ area, x, y, box }) => ({
    area,
    x,
    y,
    box: [box.x, box.y, box.x + box.width - 1, box.y + box.height - 1],
  }));
const walked = (pieces: Piece[]) => pieces.map(({ area, x, y, box }) => ({ area, x, y, box }));
const masks: Mask[] = [];
for (let width = 1; width <= 130; width += 3)
  for (const share of [0.1, 0.45, 0.6, 0.95]) masks.push(randomMask(width, 17, share, width));

describe('connected pieces', () => {
  test('diagonal neighbours belong together', () => {
    expect(components(maskOf('#.. / .#. / ..#'))).toHaveLength(1);
    expect(components(maskOf('#.# / ... / #.#')).map((c) => c.area)).toEqual([1, 1, 1, 1]);
  });

  test('pieces of ink agree with walking, at widths 1 to 130', () => {
    for (const mask of masks)
      expect(shape(components(mask)), draw(mask)).toEqual(walked(byWalking(mask, true, true)));
  });

  test('holes are pieces of bare points that do not reach the border', () => {
    for (const mask of masks) {
      const inner = byWalking(mask, false, false).filter(
        ({ box }) => box[0]! > 0 && box[1]! > 0 && box[2]! < mask.width - 1 && box[3]! < mask.height - 1,
      );
      expect(shape(holes(mask))).toEqual(walked(inner));
    }
  });

  test('specks go, and only specks', () => {
    for (const mask of masks) {
      const { mask: clean, dropped } = dropSpecks(mask, 4);
      const expected = blankMask(mask.width, mask.height);
      const pieces = byWalking(mask, true, true);
      for (const piece of pieces)
        if (piece.area >= 4) for (const [x, y] of piece.points) setBit(expected, x, y);
      expect(equal(clean, expected)).toBe(true);
      expect(dropped).toHaveLength(pieces.filter((p) => p.area < 4).length);
    }
  });
});

describe('joined', () => {
  test('a piece that the seed only touches belongs to it, one beyond a gap does not', () => {
    const within = maskOf('.###. / ..... / #....');
    const seed = maskOf('#.... / ..... / .....');
    expect(draw(joined(seed, within))).toBe('.###. / ..... / .....');
  });

  test('a spiral is followed to its end', () => {
    const spiral = maskOf(`
      #########
      ........#
      #######.#
      #.....#.#
      #.###.#.#
      #.#...#.#
      #.#####.#
      #.......#
      #########`);
    const seed = blankMask(9, 9);
    setBit(seed, 0, 0);
    expect(equal(joined(seed, spiral), spiral)).toBe(true);
  });

  test('agrees with walking from every piece the seed touches', () => {
    for (const mask of [...masks, blobs(200, 120, 30, 4), randomMask(200, 90, 0.4, 77)]) {
      const seed = randomMask(mask.width, mask.height, 0.01, mask.width + 5);
      const expected = blankMask(mask.width, mask.height);
      for (const piece of byWalking(mask, true, true)) {
        const touches = piece.points.some(([x, y]) =>
          [-1, 0, 1].some((dy) => [-1, 0, 1].some((dx) => getBit(seed, x + dx, y + dy))),
        );
        if (touches) for (const [x, y] of piece.points) setBit(expected, x, y);
      }
      expect(equal(joined(seed, mask), expected), `${mask.width} × ${mask.height}`).toBe(true);
    }
  });
});
