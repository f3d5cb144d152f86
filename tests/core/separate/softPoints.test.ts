import { describe, expect, test } from 'vitest';
import type { Picture } from '../../../core/raster/index.ts';
import { codesOf, wordsOf } from '../../../core/separate/codes.ts';
import { coresOf } from '../../../core/separate/cores.ts';
import {
  DRAWN_ART,
  type EdgeSolver,
  GRAINY_ART,
  newEdgeSolver,
  withThinCores,
} from '../../../core/separate/edge.ts';
import { labelsOf } from '../../../core/separate/labels.ts';
import { findThinCores, solvePlain, solveSoftPoints } from '../../../core/separate/softPoints.ts';
import { Workspace } from '../../../core/separate/workspace.ts';
import { INKS, softArt } from './softArt.ts';

/** The art's solver before thin cores are looked for, and its soft points; anew each time, since cores are changed. */
function solverOf(picture: Picture, ground: string | null, grainy: boolean, curve: Float64Array | null) {
  const space = new Workspace();
  const labels = labelsOf({ inks: INKS, ground });
  const words = wordsOf(picture);
  const { width, height } = picture;
  const codes = codesOf(words, labels, space);
  const { cores, soft } = coresOf(words, codes, width, height, space);
  const exactness = grainy ? GRAINY_ART : DRAWN_ART;
  const make = (kept: Uint8Array): EdgeSolver =>
    newEdgeSolver(picture, words, codes, kept, labels, curve, exactness);
  return { solver: make(cores), make, soft, space };
}

const same = (a: Uint8Array | Int32Array, b: Uint8Array | Int32Array): boolean =>
  a.length === b.length && a.every((value, i) => value === b[i]);

const LIGHT = Float64Array.from({ length: 256 }, (_, i) => 255 * (i / 255) ** 2.2);

describe('soft points by the kernel', () => {
  const cases = [
    [1, 1, 0],
    [1, 60, 0],
    [60, 1, 30],
    [7, 9, 0],
    [130, 70, 0],
    [200, 160, 14],
    [90, 240, 60],
    [3000, 120, 0],
  ] as const;
  for (const [width, height, noise] of cases)
    for (const grainy of [false, true])
      for (const ground of ['#ffffff', null])
        test(`${width} × ${height}, noise ${noise}, ${grainy ? 'grainy' : 'drawn'}, ${ground ? 'on white' : 'on nothing'}: thin cores, winners and shares are those of the plain twin`, () => {
          const picture = softArt(width, height, width + height + noise, noise, ground === null);
          for (const curve of [null, LIGHT]) {
            const [a, b] = [0, 1].map(() => solverOf(picture, ground, grainy, curve)) as [
              ReturnType<typeof solverOf>,
              ReturnType<typeof solverOf>,
            ];
            const thin = withThinCores(b.solver, b.soft, b.space);
            expect(same(findThinCores(a.solver, a.soft, a.space), thin)).toBe(true);
            const planes = INKS.length + 1;
            const [won, wins] = [0, 1].map(() => new Uint8Array(width * height)) as [Uint8Array, Uint8Array];
            const shared = new Int32Array(b.soft.length);
            const shares = new Uint8Array(b.soft.length * planes);
            const count = solvePlain(b.make(thin), b.soft, planes, wins, shared, shares);
            const found = solveSoftPoints(a.make(a.solver.cores), a.soft, planes, won, a.space);
            expect(same(won, wins)).toBe(true);
            expect(same(found.shared, shared.subarray(0, count))).toBe(true);
            expect(same(found.shares, shares.subarray(0, count * planes))).toBe(true);
            if (width > 100) {
              expect(count).toBeGreaterThan(300);
              expect(same(thin, solverOf(picture, ground, grainy, curve).solver.cores)).toBe(false);
            }
          }
        });
});
