import { type DxfGroup, dxfGroups } from './dxfGroups.ts';

export interface DxfPoint {
  readonly x: number;
  readonly y: number;
  /** Tangent of a quarter of the arc's turn to the next vertex. */
  readonly bulge: number;
}
/** An entity that can bound a deck, in drawing units as written; angles in radians. */
export interface DxfEntity {
  readonly type: string;
  readonly closed: boolean;
  readonly paper: boolean;
  /** Drawn from below: its own x axis runs the other way (extrusion −z). */
  readonly turned: boolean;
  /** Vertices of a line or polyline; control points of a spline. */
  readonly points: readonly DxfPoint[];
  readonly centre: DxfPoint | null;
  /** End of an ellipse's major axis from its centre. */
  readonly major: DxfPoint | null;
  /** Group 40: a radius; of an ellipse, minor axis over major. */
  readonly size: number;
  readonly from: number | null;
  readonly to: number | null;
  readonly knots: readonly number[];
  readonly degree: number;
}
export interface DxfDrawing {
  readonly insunits: number | null;
  readonly measurement: number | null;
  readonly entities: readonly DxfEntity[];
}

const RADIANS = Math.PI / 180;
/** Entities whose coordinates are in their own system and turn with the extrusion; the others' are the world's. */
const OWN_SYSTEM = new Set(['LWPOLYLINE', 'POLYLINE', 'CIRCLE', 'ARC']);
/** POLYLINE vertices that only steer a fitted curve (group 70, bit 16). */
const CONTROL_VERTEX = 16;

/** The numbers of all groups of one code, in order. */
const all = (groups: readonly DxfGroup[], code: number): number[] =>
  groups.filter((g) => g.code === code).map((g) => Number.parseFloat(g.text));
const one = (groups: readonly DxfGroup[], code: number): number | null => all(groups, code)[0] ?? null;

function pointAt(groups: readonly DxfGroup[], code: number): DxfPoint | null {
  const [x, y] = [one(groups, code), one(groups, code + 10)];
  return x === null || y === null ? null : { x, y, bulge: 0 };
}

/** Points that begin with group 10; group 20 and a bulge (42) follow each. */
function run(groups: readonly DxfGroup[]): DxfPoint[] {
  const points: { x: number; y: number; bulge: number }[] = [];
  for (const { code, text } of groups) {
    const last = points.at(-1);
    if (code === 10) points.push({ x: Number.parseFloat(text), y: Number.NaN, bulge: 0 });
    else if (code === 20 && last) last.y = Number.parseFloat(text);
    else if (code === 42 && last) last.bulge = Number.parseFloat(text);
  }
  return points;
}

function entityOf(type: string, groups: readonly DxfGroup[], vertices: readonly DxfPoint[]): DxfEntity {
  const flags = one(groups, 70) ?? 0;
  const degrees = type === 'ARC' ? RADIANS : 1;
  const [fromCode, toCode] = type === 'ELLIPSE' ? [41, 42] : [50, 51];
  const from = one(groups, fromCode);
  const to = one(groups, toCode);
  const ends = [pointAt(groups, 10), pointAt(groups, 11)].filter((p) => p !== null);
  return {
    type,
    closed: (flags & 1) === 1,
    paper: one(groups, 67) === 1,
    turned: OWN_SYSTEM.has(type) && (one(groups, 230) ?? 1) < 0,
    points: type === 'LINE' ? ends : type === 'LWPOLYLINE' || type === 'SPLINE' ? run(groups) : vertices,
    centre: pointAt(groups, 10),
    major: pointAt(groups, 11),
    size: one(groups, 40) ?? 0,
    from: from === null ? null : from * degrees,
    to: to === null ? null : to * degrees,
    knots: type === 'SPLINE' ? all(groups, 40) : [],
    degree: one(groups, 71) ?? 3,
  };
}

/** The value of a header variable: the first group after its name. */
function headerValue(groups: readonly DxfGroup[], name: string): number | null {
  const at = groups.findIndex((g) => g.code === 9 && g.text === name);
  const value = at < 0 ? Number.NaN : Number.parseFloat(groups[at + 1]?.text ?? '');
  return Number.isFinite(value) ? value : null;
}

/**
 * The ENTITIES section of an ASCII DXF and the header's units, or null when it is no DXF. A POLYLINE's vertices, which are
 * entities of their own up to SEQEND, are gathered under it. Blocks are not read.
 */
export function readDxf(text: string): DxfDrawing | null {
  const groups = dxfGroups(text);
  if (!groups) return null;
  const entities: DxfEntity[] = [];
  let section = '';
  let sections = 0;
  let polyline: { groups: readonly DxfGroup[]; vertices: DxfPoint[] } | null = null;
  const endPolyline = () => {
    if (polyline) entities.push(entityOf('POLYLINE', polyline.groups, polyline.vertices));
    polyline = null;
  };
  for (let at = 0; at < groups.length; ) {
    const { code, text: type } = groups[at] as DxfGroup;
    let end = at + 1;
    while (end < groups.length && (groups[end] as DxfGroup).code !== 0) end++;
    const own = groups.slice(at + 1, end);
    at = end;
    if (code !== 0) continue;
    if (type === 'SECTION') {
      section = own.find((g) => g.code === 2)?.text ?? '';
      sections++;
    } else if (type === 'ENDSEC') section = '';
    else if (section === 'ENTITIES') {
      if (type === 'VERTEX' && polyline) {
        if (((one(own, 70) ?? 0) & CONTROL_VERTEX) === 0) polyline.vertices.push(...run(own).slice(0, 1));
        continue;
      }
      endPolyline();
      if (type === 'POLYLINE') polyline = { groups: own, vertices: [] };
      else if (type !== 'SEQEND') entities.push(entityOf(type, own, []));
    }
  }
  endPolyline();
  if (sections === 0) return null;
  return {
    insunits: headerValue(groups, '$INSUNITS'),
    measurement: headerValue(groups, '$MEASUREMENT'),
    entities,
  };
}
