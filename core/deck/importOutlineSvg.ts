import { SaxesParser } from 'saxes';
import svgpath from 'svgpath';
import { outlineTrouble } from '../sentences/index.ts';
import { MM_PER_INCH, type Outcome } from '../units/index.ts';
import type { Outline } from './deck.ts';
import { type ImportOptions, outlineFromPieces } from './outlineFromPieces.ts';
import { cubicPoints, MOST_PIECES, type Pair, type Piece } from './outlinePieces.ts';

/** Characters; an outline takes a few thousand. */
const LONGEST_TEXT = 8_000_000;
const MOST_ELEMENTS = 20_000;
const MOST_SEGMENTS = 200_000;
const DEEPEST = 200;

/** mm of each absolute unit of CSS Values 3, section 6.2: 1in = 2.54cm = 96px = 72pt = 6pc, 1Q = 0.25 mm. */
const UNITS: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: MM_PER_INCH,
  pt: MM_PER_INCH / 72,
  pc: MM_PER_INCH / 6,
  px: MM_PER_INCH / 96,
  '': MM_PER_INCH / 96,
};
/** What lies inside these is drawn elsewhere, or not at all. */
const UNDRAWN = new Set([
  'defs',
  'clipPath',
  'mask',
  'marker',
  'pattern',
  'symbol',
  'metadata',
  'style',
  'script',
]);

type Attributes = Readonly<Record<string, string>>;

const inMm = (text: string | undefined): number | null => {
  const match = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(text ?? '');
  const factor = match && UNITS[(match[2] as string).toLowerCase()];
  return match && factor !== undefined && factor !== null ? Number(match[1]) * factor : null;
};

const number = (text: string | undefined): number => {
  const value = Number.parseFloat(text ?? '');
  return Number.isFinite(value) ? value : 0;
};

/** SVG 2, 8.2: user units to mm by the outermost element's size over its viewBox; `meet` keeps the lesser scale. */
function mmPerUnitOf(svg: Attributes): number {
  const width = inMm(svg['width']);
  const height = inMm(svg['height']);
  const view = (svg['viewBox'] ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  if (view.length !== 4 || !((view[2] as number) > 0 && (view[3] as number) > 0))
    return UNITS['px'] as number;
  const scales = [width && width / (view[2] as number), height && height / (view[3] as number)].filter(
    (x): x is number => !!x && x > 0,
  );
  return scales.length ? Math.min(...scales) : (UNITS['px'] as number);
}

const ellipse = (cx: number, cy: number, rx: number, ry: number) =>
  rx > 0 && ry > 0
    ? `M${cx - rx} ${cy}A${rx} ${ry} 0 0 1 ${cx} ${cy - ry}A${rx} ${ry} 0 0 1 ${cx + rx} ${cy}A${rx} ${ry} 0 0 1 ${cx} ${cy + ry}A${rx} ${ry} 0 0 1 ${cx - rx} ${cy}Z`
    : null;

/** A drawn element as path data, or null. */
function pathData(name: string, at: Attributes): string | null {
  const n = (key: string) => number(at[key]);
  switch (name) {
    case 'path':
      return at['d'] ?? null;
    case 'polygon':
      return at['points'] ? `M${at['points']}Z` : null;
    case 'polyline':
      return at['points'] ? `M${at['points']}` : null;
    case 'line':
      return `M${n('x1')} ${n('y1')}L${n('x2')} ${n('y2')}`;
    case 'circle':
      return ellipse(n('cx'), n('cy'), n('r'), n('r'));
    case 'ellipse':
      return ellipse(n('cx'), n('cy'), n('rx'), n('ry'));
    case 'rect': {
      const [x, y, w, h] = [n('x'), n('y'), n('width'), n('height')];
      if (!(w > 0 && h > 0)) return null;
      const rx = Math.min(w / 2, at['rx'] === undefined ? n('ry') : n('rx'));
      const ry = Math.min(h / 2, at['ry'] === undefined ? n('rx') : n('ry'));
      if (!(rx > 0 && ry > 0)) return `M${x} ${y}h${w}v${h}h${-w}Z`;
      const arc = (dx: number, dy: number) => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
      return `M${x + rx} ${y}h${w - 2 * rx}${arc(rx, ry)}v${h - 2 * ry}${arc(-rx, ry)}h${2 * rx - w}${arc(-rx, -ry)}v${2 * ry - h}${arc(rx, -ry)}Z`;
    }
    default:
      return null;
  }
}

class TooMuch extends Error {}

/** Path data under its transforms, innermost first, as pieces in mm with +y up. */
function piecesOf(
  data: string,
  transforms: readonly string[],
  mmPerUnit: number,
  into: Piece[],
  count: { segments: number },
) {
  let path = svgpath(data);
  for (const transform of transforms) path = path.transform(transform);
  let points: Pair[] = [];
  const finish = (closed: boolean) => {
    if (points.length > 1)
      into.push({ points: points.map(([x, y]): Pair => [x * mmPerUnit, -y * mmPerUnit]), closed });
    if (into.length > MOST_PIECES) throw new TooMuch();
    points = [];
  };
  path
    .abs()
    .unshort()
    .unarc()
    .iterate((segment, _, x, y) => {
      if (++count.segments > MOST_SEGMENTS) throw new TooMuch();
      const here: Pair = [x, y];
      if (segment[0] !== 'M' && segment[0] !== 'Z' && segment[0] !== 'z' && points.length === 0)
        points.push(here);
      switch (segment[0]) {
        case 'M':
          finish(false);
          points.push([segment[1], segment[2]]);
          break;
        case 'L':
          points.push([segment[1], segment[2]]);
          break;
        case 'H':
          points.push([segment[1], y]);
          break;
        case 'V':
          points.push([x, segment[1]]);
          break;
        case 'C':
          cubicPoints(
            here,
            [segment[1], segment[2]],
            [segment[3], segment[4]],
            [segment[5], segment[6]],
            mmPerUnit,
            points,
          );
          break;
        case 'Q': {
          // The same curve as a cubic: its inner points lie two thirds of the way to the quadratic's.
          const [qx, qy, ex, ey] = [segment[1], segment[2], segment[3], segment[4]];
          const b: Pair = [x + ((qx - x) * 2) / 3, y + ((qy - y) * 2) / 3];
          const c: Pair = [ex + ((qx - ex) * 2) / 3, ey + ((qy - ey) * 2) / 3];
          cubicPoints(here, b, c, [ex, ey], mmPerUnit, points);
          break;
        }
        case 'Z':
        case 'z':
          finish(true);
          break;
        default:
          break;
      }
    });
  finish(false);
}

/**
 * The outline in an SVG: the largest closed line among its paths and basic shapes, transforms and stated size applied
 * (px at 96 an inch where none is stated). Copies by `use`, text and style sheets are not read. Round arcs become
 * cubics, true to 0.03 % of their radius.
 */
export function importOutlineSvg(text: string, options: ImportOptions): Outcome<Outline> {
  if (text.length > LONGEST_TEXT) return outlineTrouble.svgTooLong();
  const pieces: Piece[] = [];
  const stack: { transform: string | null; drawn: boolean }[] = [];
  const count = { segments: 0 };
  let elements = 0;
  let mmPerUnit: number | null = null;
  let trouble: string | null = null;
  const parser = new SaxesParser();
  // The parser would go on, and tell of every wrong character in a long text of another kind.
  parser.on('error', (error) => {
    throw new Error(error.message.replace(/\.+$/, ''));
  });
  parser.on('opentag', (tag) => {
    const at = tag.attributes as Attributes;
    const name = tag.name.replace(/^.*:/, '');
    if (++elements > MOST_ELEMENTS || stack.length >= DEEPEST) throw new TooMuch();
    if (mmPerUnit === null) {
      if (name !== 'svg') throw new Error('its outermost element is not svg');
      mmPerUnit = options.mmPerUnit ?? mmPerUnitOf(at);
    }
    const hidden = /(^|;)\s*display\s*:\s*none/.test(at['style'] ?? '') || at['display'] === 'none';
    const drawn = (stack.at(-1)?.drawn ?? true) && !UNDRAWN.has(name) && !hidden;
    stack.push({ transform: at['transform'] ?? null, drawn });
    const data = drawn ? pathData(name, at) : null;
    if (!data) return;
    const transforms = stack.flatMap((s) => (s.transform ? [s.transform] : [])).reverse();
    piecesOf(data, transforms, mmPerUnit, pieces, count);
  });
  parser.on('closetag', () => {
    stack.pop();
  });
  try {
    parser.write(text).close();
  } catch (error) {
    if (error instanceof TooMuch) return outlineTrouble.svgTooMuch();
    trouble = error instanceof Error ? error.message : 'it is damaged';
  }
  if (trouble !== null || mmPerUnit === null) return outlineTrouble.svgUnread(trouble ?? 'it is empty');
  return outlineFromPieces(pieces, options);
}
