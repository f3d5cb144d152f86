import { outlineTrouble } from '../sentences/index.ts';
import { MM_PER_INCH, type Outcome } from '../units/index.ts';
import type { Outline } from './deck.ts';
import { type DxfEntity, type DxfPoint, readDxf } from './dxfEntities.ts';
import { type ImportOptions, outlineFromPieces } from './outlineFromPieces.ts';
import { CURVE_TOLERANCE, MOST_PIECES, type Pair, type Piece } from './outlinePieces.ts';
import { splinePoints } from './spline.ts';

const LONGEST_TEXT = 8_000_000;

/** mm of each value of the header variable $INSUNITS (DXF reference, HEADER section). */
const INSUNITS: Readonly<Record<number, number>> = {
  1: MM_PER_INCH,
  2: 12 * MM_PER_INCH,
  4: 1,
  5: 10,
  6: 1000,
  14: 100,
};
/** $MEASUREMENT: 0 is English, 1 metric; used where $INSUNITS says nothing. */
const MEASUREMENT: readonly number[] = [MM_PER_INCH, 1];

/** Points on an ellipse from `from` through `turn` radians; `major` is its half axis, `ratio` minor over major. */
function arcPoints(
  centre: Pair,
  major: Pair,
  ratio: number,
  from: number,
  turn: number,
  scale: number,
): Pair[] {
  const radius = Math.hypot(major[0], major[1]) * scale;
  const step = radius > CURVE_TOLERANCE ? 2 * Math.acos(1 - CURVE_TOLERANCE / radius) : Math.PI / 8;
  const n = Math.min(4000, Math.max(2, Math.ceil(Math.abs(turn) / step)));
  return Array.from({ length: n + 1 }, (_, i): Pair => {
    const a = from + (turn * i) / n;
    const [c, s] = [Math.cos(a), Math.sin(a) * ratio];
    return [centre[0] + major[0] * c - major[1] * s, centre[1] + major[1] * c + major[0] * s];
  });
}

/** A vertex's bulge is the tangent of a quarter of the arc's turn to the next, counter-clockwise positive. */
function bulgePoints(a: DxfPoint, b: DxfPoint, scale: number): Pair[] {
  const { bulge } = a;
  const end: Pair = [b.x, b.y];
  if (Math.abs(bulge) < 1e-9) return [end];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const off = (1 - bulge * bulge) / (4 * bulge);
  const centre: Pair = [a.x + dx / 2 - dy * off, a.y + dy / 2 + dx * off];
  const radius = Math.hypot(a.x - centre[0], a.y - centre[1]);
  const from = Math.atan2(a.y - centre[1], a.x - centre[0]);
  return [...arcPoints(centre, [radius, 0], 1, from, 4 * Math.atan(bulge), scale).slice(1, -1), end];
}

function pieceOf(entity: DxfEntity, scale: number): Piece | null {
  const { points: vertices, centre, size } = entity;
  const full = 2 * Math.PI;
  const turnOf = (from: number, to: number) => {
    const turn = (((to - from) % full) + full) % full;
    return turn < 1e-9 ? full : turn;
  };
  switch (entity.type) {
    case 'LINE':
    case 'LWPOLYLINE':
    case 'POLYLINE': {
      const [start] = vertices;
      if (!start || vertices.length < 2) return null;
      const points: Pair[] = [[start.x, start.y]];
      for (let i = 1; i < vertices.length; i++)
        points.push(...bulgePoints(vertices[i - 1] as DxfPoint, vertices[i] as DxfPoint, scale));
      const closed = entity.closed && entity.type !== 'LINE';
      if (closed)
        points.push(...bulgePoints(vertices[vertices.length - 1] as DxfPoint, start, scale).slice(0, -1));
      return { points, closed };
    }
    case 'CIRCLE':
      if (!centre || !size) return null;
      return {
        points: arcPoints([centre.x, centre.y], [size, 0], 1, 0, full, scale).slice(0, -1),
        closed: true,
      };
    case 'ARC': {
      if (!centre || !size) return null;
      const from = entity.from ?? 0;
      const turn = turnOf(from, entity.to ?? full);
      return { points: arcPoints([centre.x, centre.y], [size, 0], 1, from, turn, scale), closed: false };
    }
    case 'ELLIPSE': {
      const { major } = entity;
      if (!centre || !major || !size) return null;
      const from = entity.from ?? 0;
      const turn = turnOf(from, entity.to ?? full);
      const points = arcPoints([centre.x, centre.y], [major.x, major.y], size, from, turn, scale);
      return turn === full ? { points: points.slice(0, -1), closed: true } : { points, closed: false };
    }
    case 'SPLINE': {
      const control = vertices.map((p): Pair => [p.x, p.y]);
      const points = splinePoints(control, entity.knots, entity.degree, scale);
      return points ? { points, closed: false } : null;
    }
    default:
      return null;
  }
}

/**
 * The outline in an ASCII DXF: lines, arcs, circles, ellipses, polylines with bulges and splines (without weights) of
 * its model space, joined end to end; the largest closed line. Units by $INSUNITS, else $MEASUREMENT, else mm. Blocks
 * are not read.
 */
export function importOutlineDxf(text: string, options: ImportOptions): Outcome<Outline> {
  if (text.length > LONGEST_TEXT) return outlineTrouble.dxfTooLong();
  if (text.startsWith('AutoCAD Binary DXF')) return outlineTrouble.dxfBinary();
  const damaged = outlineTrouble.dxfUnread();
  const drawing = readDxf(text);
  if (!drawing) return damaged;
  const unit = INSUNITS[drawing.insunits ?? 0] ?? MEASUREMENT[drawing.measurement ?? 1] ?? 1;
  const scale = options.mmPerUnit ?? unit;
  const pieces: Piece[] = [];
  for (const entity of drawing.entities) {
    if (entity.paper) continue;
    const piece = pieceOf(entity, scale);
    if (!piece?.points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y))) continue;
    // Entities drawn from below (extrusion −z) have their x turned round.
    const flip = entity.turned ? -1 : 1;
    pieces.push({ ...piece, points: piece.points.map(([x, y]): Pair => [x * scale * flip, y * scale]) });
    if (pieces.length > MOST_PIECES) break;
  }
  return outlineFromPieces(pieces, options);
}
