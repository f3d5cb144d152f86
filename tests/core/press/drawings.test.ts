import { expect, test } from 'vitest';
import { FACES, importOutlineDxf, outlineRing, ringArea, truckHoles } from '../../../core/deck/index.ts';
import {
  clampPlaces,
  drawingDxf,
  drawingSvg,
  jigDrawing,
  squeegeeDrawing,
} from '../../../core/press/index.ts';
import { PLAIN } from '../deck/anyDeck.ts';

const FRAME = { frameWidth: 400, frameLength: 1060, frameBar: 30, hinge: 'near' as const };
const jig = (face: 'bottom' | 'top', deck = PLAIN) => {
  const made = jigDrawing(deck, face, FRAME);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

test.each(FACES)('the jig has the eight truck holes in place and size, %s', (face) => {
  const drilled = jig(face).items.flatMap((item) =>
    item.kind === 'circle' && item.layer === 'drill' ? [item] : [],
  );
  expect(drilled.map(({ x, y }) => ({ x, y }))).toEqual(truckHoles(PLAIN, face));
  for (const { radius } of drilled) expect(radius).toBe(PLAIN.holes.diameter / 2);
});

test('the top’s jig is the bottom’s flipped across, nose to nose', () => {
  const lopsided = {
    ...PLAIN,
    outline: {
      kind: 'path' as const,
      points: outlineRing(PLAIN, 'bottom').map(([x, y]): [number, number] => [x, y > 0 ? y : y * 0.9]),
      source: 'test',
    },
  };
  const edge = (face: 'bottom' | 'top') => {
    const item = jig(face, lopsided).items[0];
    if (item?.kind !== 'path') throw new Error('no outline');
    return item.points;
  };
  const far = (ring: readonly (readonly [number, number])[]) => [
    Math.min(...ring.map(([, y]) => y)),
    Math.max(...ring.map(([, y]) => y)),
    Math.max(...ring.map(([x]) => x)),
  ];
  const [low, high, nose] = far(edge('bottom'));
  expect(far(edge('top'))).toEqual([-high!, -low!, nose]);
});

test('clamps stand on the hinge line of the chosen side', () => {
  for (const [x, y] of clampPlaces(FRAME)) expect([Math.abs(x), y]).toEqual([265, -230]);
  for (const [, y] of clampPlaces({ ...FRAME, hinge: 'far' })) expect(y).toBe(230);
});

test('the SVG is 1:1: its millimetres are its user units', () => {
  const drawn = jig('bottom');
  const svg = drawingSvg(drawn);
  const [, w, h, bw, bh] =
    /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
  expect([w, h]).toEqual([bw, bh]);
  expect(Number(w)).toBeCloseTo(drawn.box.width, 3);
  const circles = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)].map((m) =>
    m.slice(1).map(Number),
  );
  const [first] = truckHoles(PLAIN, 'bottom');
  expect(
    circles.some(
      ([x, y]) =>
        Math.abs(x! - (first!.x - drawn.box.x)) < 1e-3 &&
        Math.abs(y! - (drawn.box.y + drawn.box.height - first!.y)) < 1e-3,
    ),
  ).toBe(true);
});

test('another library reads the DXF back as the same outline, in mm', () => {
  const drawn = jig('bottom');
  const dxf = drawingDxf({ ...drawn, items: drawn.items.slice(0, 1) });
  // $INSUNITS 4 is millimetres (DXF reference, header variables).
  expect(dxf).toMatch(/\$INSUNITS\r?\n\s*70\r?\n\s*4\r?\n/);
  const read = importOutlineDxf(dxf, { source: 'jig.dxf', noseEnd: 'right' } as Parameters<
    typeof importOutlineDxf
  >[1]);
  if (!read.ok || read.value.kind !== 'path') throw new Error('not read');
  const extent = (ring: readonly (readonly [number, number])[]) => [
    Math.max(...ring.map(([x]) => x)) - Math.min(...ring.map(([x]) => x)),
    Math.max(...ring.map(([, y]) => y)) - Math.min(...ring.map(([, y]) => y)),
    Math.abs(ringArea(ring)),
  ];
  const [want, back] = [extent(outlineRing(PLAIN, 'bottom')), extent(read.value.points)];
  expect(back[0]).toBeCloseTo(want[0]!, 2);
  expect(back[1]).toBeCloseTo(want[1]!, 2);
  expect(back[2]! / want[2]!).toBeCloseTo(1, 4);
});

test.each(FACES)('the squeegee’s edge lies on the wood, %s', (face) => {
  const input = { face, width: 200, depth: 10, thickness: 11, blade: 180, plies: 4 };
  const made = squeegeeDrawing(input);
  if (!made.ok) throw new Error(made.reason);
  const edge = made.value.items[0];
  if (edge?.kind !== 'path') throw new Error('no edge');
  // Circle through three points: 200 wide and 10 deep is a radius of 505 on the top (sagitta formula), 11 more below.
  const radius = face === 'top' ? 505 : 516;
  const sign = face === 'top' ? 1 : -1;
  const curve = edge.points.filter(([, y]) => y < 80);
  expect(curve.length).toBeGreaterThan(100);
  for (const [x, y] of curve) expect(y).toBeCloseTo(sign * (radius - Math.sqrt(radius * radius - x * x)), 9);
  const form = made.value.items.find((item, i) => i > 0 && item.kind === 'path' && item.layer === 'cut');
  if (form?.kind !== 'path') throw new Error('no form');
  // On the form's own curve, three points give the radius ρ·(1 − 1/16).
  const bend = form.points.slice(0, -2);
  const [a, b, c] = [bend[0]!, bend[bend.length >> 1]!, bend.at(-1)!];
  const chord = c[0] - a[0];
  const sag = Math.abs(b[1] - (a[1] + c[1]) / 2);
  expect((chord * chord) / 8 / sag + sag / 2).toBeCloseTo(radius * (15 / 16), 1);
});
