import DxfParser from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import { readDxf } from '../../../core/deck/dxfEntities.ts';
import { importOutlineDxf } from '../../../core/deck/index.ts';

/** Groups as they stand in a file: code and value on lines of their own (DXF reference). */
const dxf = (...groups: readonly (readonly [number, string | number])[]) =>
  [...groups, [0, 'EOF'] as const].map(([code, value]) => `${code}\n${value}\n`).join('');

const EVERYTHING = dxf(
  [0, 'SECTION'],
  [2, 'HEADER'],
  [9, '$INSUNITS'],
  [70, 5],
  [9, '$MEASUREMENT'],
  [70, 0],
  [0, 'ENDSEC'],
  [0, 'SECTION'],
  [2, 'ENTITIES'],
  [0, 'LINE'],
  [8, '0'],
  [10, 1],
  [20, 2],
  [11, 3],
  [21, -4],
  [0, 'ARC'],
  [8, '0'],
  [10, 5],
  [20, 6],
  [40, 7],
  [50, 30],
  [51, 120],
  [230, -1],
  [0, 'CIRCLE'],
  [8, '0'],
  [10, -5],
  [20, 6.5],
  [40, 2.5],
  [0, 'ELLIPSE'],
  [8, '0'],
  [10, 1],
  [20, 1],
  [11, 9],
  [21, 3],
  [40, 0.5],
  [41, 0.25],
  [42, 3],
  [0, 'LWPOLYLINE'],
  [8, '0'],
  [90, 3],
  [70, 1],
  [10, 0],
  [20, 0],
  [42, 0.5],
  [10, 9],
  [20, 0],
  [10, 9],
  [20, 9],
  [0, 'POLYLINE'],
  [8, '0'],
  [66, 1],
  [70, 1],
  [0, 'VERTEX'],
  [8, '0'],
  [10, 1],
  [20, 1],
  [42, -0.25],
  [0, 'VERTEX'],
  [8, '0'],
  [10, 8],
  [20, 1],
  [0, 'SEQEND'],
  [8, '0'],
  [0, 'SPLINE'],
  [8, '0'],
  [70, 8],
  [71, 3],
  [72, 8],
  [73, 4],
  [40, 0],
  [40, 0],
  [40, 0],
  [40, 0],
  [40, 1],
  [40, 1],
  [40, 1],
  [40, 1],
  [10, 0],
  [20, 0],
  [10, 1],
  [20, 2],
  [10, 3],
  [20, 2],
  [10, 4],
  [20, 0],
  [0, 'ENDSEC'],
);

describe('a DXF', () => {
  test('is read as a general-purpose reader reads it (dxf-parser 1.1.2)', () => {
    const theirs = new DxfParser().parseSync(EVERYTHING) as unknown as {
      header: Record<string, number>;
      entities: Record<string, unknown>[];
    };
    const ours = readDxf(EVERYTHING);
    expect(ours?.insunits).toBe(theirs.header['$INSUNITS']);
    expect(ours?.measurement).toBe(theirs.header['$MEASUREMENT']);
    expect(ours?.entities.map((e) => e.type)).toEqual(theirs.entities.map((e) => e['type']));
    const flat = (points: unknown) =>
      ((points ?? []) as { x: number; y: number; bulge?: number }[]).map((p) => [p.x, p.y, p.bulge ?? 0]);
    for (const [i, own] of (ours?.entities ?? []).entries()) {
      const their = theirs.entities[i] as Record<string, never>;
      const type = own.type;
      expect(flat(own.points), type).toEqual(flat(their['vertices'] ?? their['controlPoints']));
      if (their['center']) expect(flat([own.centre]), type).toEqual(flat([their['center']]));
      if (their['majorAxisEndPoint'])
        expect(flat([own.major]), type).toEqual(flat([their['majorAxisEndPoint']]));
      if (type === 'ARC' || type === 'CIRCLE') expect(own.size, type).toBe(their['radius']);
      if (type === 'ELLIPSE') expect(own.size).toBe(their['axisRatio']);
      if (type === 'ARC' || type === 'ELLIPSE') {
        expect(own.from, type).toBeCloseTo(Number(their['startAngle']), 12);
        expect(own.to, type).toBeCloseTo(Number(their['endAngle']), 12);
      }
      if (type.endsWith('POLYLINE')) expect(own.closed, type).toBe(their['shape']);
      if (type === 'SPLINE')
        expect([own.knots, own.degree]).toEqual([their['knotValues'], their['degreeOfSplineCurve']]);
    }
    expect(ours?.entities.map((e) => e.turned)).toEqual([false, true, false, false, false, false, false]);
  });

  test('whose lines slipped by one ends at once, found by seed 1: a reader that steps back may step for ever', () => {
    const slipped = EVERYTHING.replace('10\n0\n20\n0\n42', '10\n0\n\n20\n0\n42');
    expect(importOutlineDxf(slipped, { source: 'a.dxf' })).toMatchObject({
      ok: false,
      reason: 'The file can not be read as DXF.',
    });
  });

  test('without sections, without its end mark or without codes is none', () => {
    for (const text of ['', '0\nEOF\n', EVERYTHING.slice(0, -6), 'five\ninks\n0\nEOF\n'])
      expect(readDxf(text), text.slice(0, 20)).toBeNull();
  });
});
