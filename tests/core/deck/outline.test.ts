import { expect, test } from 'vitest';
import {
  deckWithOutline,
  FACES,
  holesOnSurface,
  importOutlineDxf,
  importOutlineSvg,
  outlineOnSurface,
  outlineRing,
  printableRings,
  ringArea,
  truckHoles,
} from '../../../core/deck/index.ts';
import { PLAIN } from './anyDeck.ts';

const svg = (body: string, size = 'width="900mm" height="300mm" viewBox="0 0 900 300"') =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${body}</svg>`;
const dxf = (header: (string | number)[], ...entities: (string | number)[]) =>
  [
    0,
    'SECTION',
    2,
    'HEADER',
    ...header,
    0,
    'ENDSEC',
    0,
    'SECTION',
    2,
    'ENTITIES',
    ...entities,
    0,
    'ENDSEC',
    0,
    'EOF',
  ].join('\n');
const points = (got: ReturnType<typeof importOutlineSvg>) => {
  if (!got.ok) throw new Error(got.reason);
  if (got.value.kind !== 'path') throw new Error('not a path');
  return got.value.points;
};
const size = (ring: readonly (readonly [number, number])[]) => {
  const span = (i: 0 | 1) => Math.max(...ring.map((p) => p[i])) - Math.min(...ring.map((p) => p[i]));
  return [span(0), span(1)];
};
/** A slot: two half circles of radius r joined by straights of length l. */
const slot = (l: number, r: number) => 2 * l * r + Math.PI * r * r;

test('the outer holes of a 14.25 in wheelbase lie 234.95 mm from the middle, the inner 180.975', () => {
  // Worked from the trade's definition of wheelbase: between the innermost holes, centre to centre.
  const holes = truckHoles({ ...PLAIN, wheelbase: 14.25 * 25.4 }, 'bottom');
  expect(holes.map((h) => h.x)).toEqual([
    -234.95, -234.95, -180.975, -180.975, 180.975, 180.975, 234.95, 234.95,
  ]);
  for (const h of holes) expect(Math.abs(h.y)).toBeCloseTo(20.6375, 9);
});

test('a superellipse end of exponent 2 is half an ellipse', () => {
  const end = { length: 200, exponent: 2, width: 0 };
  const ring = outlineRing(
    { ...PLAIN, outline: { kind: 'parametric', nose: end, tail: end, waist: 0 } },
    'bottom',
    1e-4,
  );
  const [length] = size(ring) as [number, number];
  expect(ringArea(ring) / (200 * (length - 400) + Math.PI * 100 * 200)).toBeCloseTo(1, 5);
});

test('the top is the bottom flipped across, and drawing closes once', () => {
  const path: [number, number][] = [
    [-390, -90],
    [390, -100],
    [400, 20],
    [-390, 100],
  ];
  const deck = { ...PLAIN, outline: { kind: 'path' as const, points: path, source: '' } };
  expect(new Set(outlineRing(deck, 'top').map(String))).toEqual(
    new Set(path.map(([x, y]) => String([x, -y]))),
  );
  for (const face of FACES) expect(ringArea(outlineRing(deck, face))).toBeGreaterThan(0);
});

test('the printable area keeps its margin from the outline, clears the holes and stops at the reach', () => {
  for (const face of FACES) {
    const outline = outlineOnSurface(PLAIN, face);
    const rings = printableRings(PLAIN, face, {
      railMargin: 6,
      clearHoles: 9,
      reach: { nose: 330, tail: 300 },
    });
    expect(rings.map((r) => Math.sign(ringArea(r))).sort()).toEqual([-1, -1, -1, -1, -1, -1, -1, -1, 1]);
    const outer = rings.find((r) => ringArea(r) > 0)!;
    expect(Math.max(...outer.map((p) => p[0]))).toBeCloseTo(330, 3);
    expect(Math.min(...outer.map((p) => p[0]))).toBeCloseTo(-300, 3);
    for (const [s, t] of outer) {
      if (Math.abs(s - 330) < 0.01 || Math.abs(s + 300) < 0.01) continue;
      const near = outline.reduce((least, [a, b], i) => {
        const [c, d] = outline[(i + 1) % outline.length]!;
        const p = Math.min(
          1,
          Math.max(0, ((s - a) * (c - a) + (t - b) * (d - b)) / ((c - a) ** 2 + (d - b) ** 2)),
        );
        return Math.min(least, Math.hypot(s - a - p * (c - a), t - b - p * (d - b)));
      }, Infinity);
      expect(Math.abs(near - 6)).toBeLessThan(0.02);
    }
    const holes = holesOnSurface(PLAIN, face);
    for (const ring of rings.filter((r) => ringArea(r) < 0))
      for (const [s, t] of ring) {
        const near = Math.min(...holes.map((h) => Math.hypot(h.s - s, h.t - t)));
        expect(near).toBeGreaterThan(8.999);
        expect(near).toBeLessThan(9.02);
      }
    expect(printableRings(PLAIN, face, { railMargin: 6, clearHoles: 0 })).toHaveLength(1);
    expect(
      printableRings(PLAIN, face, { railMargin: 99, clearHoles: 9 }).every((r) => ringArea(r) < 200 * 800),
    ).toBe(true);
  }
});

test('an SVG outline is read at its true size, through transforms and units', () => {
  const rect = '<g transform="translate(30 40)"><rect width="800" height="200" rx="100"/></g>';
  const ring = points(importOutlineSvg(svg(rect), { source: 'slot.svg' }));
  expect(size(ring)[0]).toBeCloseTo(800, 6);
  expect(size(ring)[1]).toBeCloseTo(200, 6);
  // Arcs become cubics, whose radius strays by 0.03 % at most.
  expect(ringArea(ring) / slot(600, 100)).toBeCloseTo(1, 3);
  const inches = svg('<path d="M0 0H32V8H0Z"/>', 'width="32in" height="8in" viewBox="0 0 32 8"');
  const measured = size(points(importOutlineSvg(inches, { source: '' })));
  expect(measured[0]).toBeCloseTo(812.8, 9);
  expect(measured[1]).toBeCloseTo(203.2, 9);
});

test('a tall drawing has its nose up; the deck takes its size from the path', () => {
  const pointed = svg(
    '<path d="M100 0L200 300V800H0V300Z"/>',
    'width="200mm" height="800mm" viewBox="0 0 200 800"',
  );
  const outline = importOutlineSvg(pointed, { source: '' });
  const ring = points(outline);
  const nose = ring.reduce((a, b) => (b[0] > a[0] ? b : a));
  expect(nose[0]).toBeCloseTo(400, 9);
  expect(nose[1]).toBeCloseTo(0, 9);
  if (!outline.ok) return;
  const deck = deckWithOutline(PLAIN, outline.value);
  expect(deck.noseLength + deck.tailLength + deck.wheelbase + 2 * deck.holes.along).toBeCloseTo(800, 9);
  expect(deck.noseLength - deck.tailLength).toBeCloseTo(13, 9);
});

test('gaps as small as a drawing program leaves are closed, larger ones refused', () => {
  const ends = (gap: number) => svg(`<path d="M0 0H800V200"/><path d="M800 ${200 - gap}L0 200V0"/>`);
  expect(size(points(importOutlineSvg(ends(0.1), { source: '' })))).toEqual([800, 200]);
  const open = importOutlineSvg(ends(5), { source: '' });
  expect(open).toMatchObject({ ok: false, reason: expect.stringMatching(/open: its ends are 5\.00 mm/) });
});

test('a DXF outline: a polyline with bulges in inches, and loose lines and arcs in mm', () => {
  const slotInches = dxf(
    [9, '$INSUNITS', 70, 1],
    0,
    'LWPOLYLINE',
    8,
    0,
    90,
    4,
    70,
    1,
    10,
    0,
    20,
    0,
    10,
    24,
    20,
    0,
    42,
    1,
    10,
    24,
    20,
    8,
    10,
    0,
    20,
    8,
    42,
    1,
  );
  const ring = points(importOutlineDxf(slotInches, { source: '' }));
  expect(size(ring)[0]).toBeCloseTo(32 * 25.4, 1);
  expect(ringArea(ring) / (slot(24, 4) * 25.4 ** 2)).toBeCloseTo(1, 4);
  const loose = dxf(
    [9, '$INSUNITS', 70, 4],
    0,
    'LINE',
    8,
    0,
    10,
    0,
    20,
    0,
    11,
    600,
    21,
    0,
    0,
    'ARC',
    8,
    0,
    10,
    600,
    20,
    100,
    40,
    100,
    50,
    270,
    51,
    90,
    0,
    'LINE',
    8,
    0,
    10,
    0,
    20,
    200,
    11,
    600,
    21,
    200,
    0,
    'ARC',
    8,
    0,
    10,
    0,
    20,
    100,
    40,
    100,
    50,
    90,
    51,
    270,
  );
  expect(ringArea(points(importOutlineDxf(loose, { source: '' }))) / slot(600, 100)).toBeCloseTo(1, 4);
});

test.each([
  ['no SVG at all', () => importOutlineSvg('rubbish', { source: '' })],
  ['an empty file', () => importOutlineSvg('', { source: '' })],
  ['SVG cut off', () => importOutlineSvg('<svg><path d="M0 0', { source: '' })],
  ['path data cut off', () => importOutlineSvg(svg('<path d="M0 0 C 1 2"/>'), { source: '' })],
  ['a bow tie', () => importOutlineSvg(svg('<path d="M0 0L800 0L0 200L800 200Z"/>'), { source: '' })],
  ['a size no deck has', () => importOutlineSvg(svg('<path d="M0 0H80V20H0Z"/>'), { source: '' })],
  ['deep nesting', () => importOutlineSvg(svg('<g>'.repeat(5000)), { source: '' })],
  ['no DXF at all', () => importOutlineDxf('rubbish', { source: '' })],
  ['an empty DXF', () => importOutlineDxf('', { source: '' })],
  ['a DXF with nothing drawn', () => importOutlineDxf(dxf([]), { source: '' })],
])('%s is refused with a sentence', (_, read) => {
  expect(read()).toMatchObject({
    ok: false,
    kind: 'input',
    reason: expect.stringMatching(/\.$/),
    mend: expect.stringMatching(/\.$/),
  });
});
