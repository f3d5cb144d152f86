import { expect, test } from 'vitest';
import { placeEdges, placePlaneEdges } from '../../../core/separate/index.ts';
import { bend } from '../../../core/separate/placeEdges.ts';
import { stream } from '../raster/randomMask.ts';

/** Points in a row, each with one byte a plane; sums of 255. */
const POINTS = [
  [255, 0, 0],
  [0, 255, 0],
  [128, 127, 0],
  [40, 215, 0],
  [90, 80, 85],
  [10, 5, 240],
  [1, 0, 254],
];

const planesOf = (points: readonly (readonly number[])[]): Uint8Array[] =>
  [0, 1, 2].map((p) => Uint8Array.from(points, (point) => point[p] as number));

const bent = (): Uint8Array[] => {
  const planes = planesOf(POINTS);
  placePlaneEdges(planes, POINTS.length);
  return planes;
};

test('a straight edge lies where its point is covered to, read on the line from the full neighbour', () => {
  for (const covered of [0.1, 0.25, 0.4, 0.6, 0.8]) {
    const share = Math.round(255 * covered);
    const ink = Uint8Array.of(255, share, 0);
    const bare = ink.map((byte) => 255 - byte);
    placePlaneEdges([bare, ink], 3);
    const [full, edge, none] = [...ink].map((byte) => byte / 255) as [number, number, number];
    // Middles lie at 0.5, 1.5 and 2.5; the ink ends at 1 + covered.
    const crossing = edge < 0.5 ? 0.5 + (full - 0.5) / (full - edge) : 1.5 + (edge - 0.5) / (edge - none);
    expect(crossing).toBeCloseTo(1 + covered, 2);
  }
});

test('shares go on summing to 255, and points of one plane alone stay as they are', () => {
  const planes = bent();
  POINTS.forEach((point, i) => {
    const now = planes.map((plane) => plane[i]);
    expect(now.reduce((sum: number, byte) => sum + (byte as number), 0)).toBe(255);
    if (point.includes(255)) expect(now).toEqual(point);
  });
});

test('the same shares come from planes and from the short telling', () => {
  const shares = Uint8Array.from(POINTS.flat());
  const coverage = {
    width: POINTS.length,
    height: 1,
    planeCount: 3,
    winners: new Uint8Array(POINTS.length),
    shared: Int32Array.from(POINTS.keys()),
    shares,
  };
  placeEdges(coverage);
  const planes = bent();
  expect(POINTS.map((_, i) => [...shares.subarray(3 * i, 3 * i + 3)])).toEqual(
    POINTS.map((_, i) => planes.map((plane) => plane[i])),
  );
});

test('many points of up to twelve planes are bent alike by the kernel and its plain twin', () => {
  const random = stream(12);
  for (const planeCount of [1, 2, 3, 7, 12]) {
    const count = 40_000;
    const shares = new Uint8Array(count * planeCount);
    for (let at = 0; at < shares.length; at += planeCount) {
      let left = 255;
      // Few planes share most points, many some.
      const parties = Math.min(planeCount, 1 + Math.floor(random() * (random() < 0.8 ? 3 : 12)));
      for (let p = 1; p < parties; p++) {
        const share = Math.floor(random() * (left + 1));
        shares[at + Math.floor(random() * planeCount)]! += share;
        left -= share;
      }
      shares[at]! += left;
    }
    const plain = shares.slice();
    for (let at = 0; at < plain.length; at += planeCount) bend(plain, at, planeCount);
    const shared = Int32Array.from({ length: count }, (_, i) => i);
    placeEdges({ width: count, height: 1, planeCount, winners: new Uint8Array(count), shared, shares });
    expect(Buffer.compare(shares, plain)).toBe(0);
  }
});
