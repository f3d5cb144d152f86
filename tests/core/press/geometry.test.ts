import { expect, test } from 'vitest';
import { type Deck, FACES, makeSurface } from '../../../core/deck/index.ts';
import { curvedSqueegee, meshGrowth, reach } from '../../../core/press/index.ts';
import { PLAIN } from '../deck/anyDeck.ts';

const section = { width: 200, depth: 10, thickness: 11 };
const got = <T>(o: { ok: true; value: { result: T } } | { ok: false; reason: string }): T => {
  if (!o.ok) throw new Error(o.reason);
  return o.value.result;
};

// Inner frame, off-contact, elongation: Pythagoras, reckoned to 40 digits apart from this program.
test.each([
  [400, 2, 0.0199995],
  [500, 3, 0.0359987041],
  [600, 6, 0.119988002],
  [700, 10, 0.285656],
])('a flat board under a %d mm frame at %d mm', (frame, offContact, elongation) => {
  const flat = { face: 'bottom' as const, width: 200, depth: 0, thickness: 11 };
  const { path } = got(meshGrowth({ ...flat, blade: 1e-9, frame, offContact }));
  expect(path - frame).toBeCloseTo(elongation, 6);
});

/** Length of the line from the frame over the section, by many short chords on a circle drawn point by point. */
function bruteAcross(face: 'bottom' | 'top', b: number, F: number, g: number): number {
  const radius = face === 'top' ? 505 : 516;
  const up = face === 'top' ? 1 : -1;
  const on = (x: number) => ({ x, z: up * (radius - Math.sqrt(radius * radius - x * x)) });
  const frame = face === 'top' ? on(100).z + g : g;
  const points = [{ x: -F / 2, z: frame }];
  for (let i = 0; i <= 20_000; i++) points.push(on(-b / 2 + (b * i) / 20_000));
  points.push({ x: F / 2, z: frame });
  return points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - points[i]!.x, p.z - points[i]!.z), 0);
}

test.each(FACES)('the mesh’s path across is the length of that line, %s', (face) => {
  const result = got(meshGrowth({ face, ...section, blade: 180, frame: 400, offContact: 25 }));
  expect(result.liesOnRail).toBe(false);
  expect(result.path).toBeCloseTo(bruteAcross(face, 180, 400, 25), 6);
  expect(result.growth).toBeCloseTo(result.path / 400 - 1, 12);
  expect(result.filmScale).toBeCloseTo(400 / result.path, 12);
});

test('on the top a low frame lays the mesh on the rails', () => {
  const result = got(meshGrowth({ face: 'top', ...section, blade: 180, frame: 400, offContact: 3 }));
  const h = 505 - Math.sqrt(505 ** 2 - 90 ** 2);
  const arc = 2 * 505 * Math.asin(90 / 505);
  expect(result.liesOnRail).toBe(true);
  expect(result.path).toBeCloseTo(arc + 2 * (Math.hypot(10, 10 - h) + Math.hypot(100, 3)), 9);
});

test('a squeegee for the worked arc of 200 mm and 10 mm', () => {
  // Radius 505 mm, length 201.330678 mm: elementary geometry. The form by beam theory: 1 − 1/3² of the radius.
  const result = got(curvedSqueegee({ face: 'top', ...section, blade: 200, plies: 3, haveRise: 7 }));
  expect(result.radius).toBeCloseTo(505, 9);
  expect(result.rise).toBeCloseTo(10, 9);
  expect(result.edgeLength).toBeCloseTo(201.330678, 6);
  expect(result.endGap).toBeCloseTo(3, 9);
  expect(result.formRadius).toBeCloseTo((505 * 8) / 9, 9);
  expect(result.edge).toBe('convex');
  const bottom = got(curvedSqueegee({ face: 'bottom', ...section, blade: 200, plies: 3 }));
  expect([bottom.radius, bottom.edge, bottom.endGap]).toEqual([516, 'concave', null]);
});

test('what can not be is refused with a sentence', () => {
  for (const bad of [
    meshGrowth({ face: 'top', ...section, depth: 100, blade: 180, frame: 400, offContact: 3 }),
    meshGrowth({ face: 'top', ...section, blade: 220, frame: 400, offContact: 3 }),
    meshGrowth({ face: 'top', ...section, blade: 180, frame: 190, offContact: 3 }),
    meshGrowth({ face: 'top', ...section, blade: 180, frame: 400, offContact: Number.NaN }),
    curvedSqueegee({ face: 'top', ...section, blade: 180, plies: 1 }),
    reach(PLAIN, 'bottom', { frameLength: 700, offContact: 3, maxStretch: 0.03 }),
  ])
    expect(bad).toMatchObject({ ok: false, kind: 'input', reason: expect.stringMatching(/\.$/) });
});

/** Shortest line over the wood from the far frame end to the point pressed down, by the upper hull of many points. */
function bruteString(deck: Deck, frameLength: number, g: number, at: number): number {
  const surface = makeSurface(deck, 'bottom');
  const hull = [{ x: -frameLength / 2, z: g }];
  const n = 40_000;
  const first = -380;
  for (let i = 0; i <= n; i++) {
    const p = surface.toSpace({ s: first + ((at - first) * i) / n, t: 0 });
    const next = { x: p.x, z: -p.z };
    while (hull.length > 1) {
      const [a, b] = [hull[hull.length - 2]!, hull[hull.length - 1]!];
      if ((b.x - a.x) * (next.z - a.z) - (b.z - a.z) * (next.x - a.x) < 0) break;
      hull.pop();
    }
    hull.push(next);
  }
  hull.push({ x: frameLength / 2, z: g });
  return hull.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - hull[i]!.x, p.z - hull[i]!.z), 0);
}

test('reach along the kicks is where the taut line has grown by what the mesh bears', () => {
  const free = got(reach(PLAIN, 'bottom', { frameLength: 1060, offContact: 3, maxStretch: 0.5 }));
  expect(free.nose.toTip).toBe(true);
  const tip = free.nose.reach;
  expect(free.nose.growth).toBeCloseTo(bruteString(PLAIN, 1060, 3, tip) / 1060 - 1, 7);
  const tight = got(
    reach(PLAIN, 'bottom', { frameLength: 1060, offContact: 3, maxStretch: free.nose.growth / 2 }),
  );
  expect(tight.nose.toTip).toBe(false);
  expect(tight.nose.reach).toBeLessThan(tip);
  expect(bruteString(PLAIN, 1060, 3, tight.nose.reach) / 1060 - 1).toBeCloseTo(free.nose.growth / 2, 7);
  // Pythagoras, as in the table above.
  expect(free.growthAtMiddle).toBeCloseTo((2 * Math.hypot(530, 3)) / 1060 - 1, 12);
});
