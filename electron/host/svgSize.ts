import type { SvgWindow } from '../../core/ports/index.ts';
import { drawingTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { SvgScan } from './svgScan.ts';

/** A drawing's own coordinates, and its physical size in mm where it states one. */
export interface SvgSize {
  /** The viewBox. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly stated: { readonly width: number; readonly height: number } | null;
}

/** CSS absolute units in mm (CSS Values and Units 3, section 6.2); `q` is a quarter of a mm. */
const MM: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};
const PX_PER_MM = 96 / 25.4;
/** Sides beyond this are slips; it also keeps arithmetic with them exact enough. */
const LARGEST_SIDE = 1_000_000;

interface Length {
  readonly px: number;
  /** null for px and bare numbers, points of no known size: programs read them at 72, 90 or 96 to the inch. */
  readonly mm: number | null;
}

function length(text: string | undefined): Length | null | 'wrong' {
  if (text === undefined || /^\s*(auto|[\d.]+%)\s*$/.test(text)) return null;
  const match = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(text);
  if (!match) return 'wrong';
  const number = Number(match[1]);
  const unit = (match[2] ?? '').toLowerCase();
  if (!(number > 0 && number <= LARGEST_SIDE)) return 'wrong';
  if (unit === '' || unit === 'px') return { px: number, mm: null };
  const mm = MM[unit];
  return mm === undefined ? null : { px: number * mm * PX_PER_MM, mm: number * mm };
}

/** Size and coordinates by SVG 2, section 8: the viewBox, or the width and height, or the two together. */
export function svgSize(scan: SvgScan, name: string): Outcome<SvgSize> {
  const wrong = (what: string) => drawingTrouble.badSize(name, what);
  const width = length(scan.rootAttributes.get('width'));
  const height = length(scan.rootAttributes.get('height'));
  if (width === 'wrong' || height === 'wrong') return wrong('a size that is not a positive length');
  const boxText = scan.rootAttributes.get('viewBox');
  if (boxText === undefined) {
    if (!width || !height) return wrong('neither a viewBox nor a width and height');
    const stated = width.mm !== null && height.mm !== null ? { width: width.mm, height: height.mm } : null;
    return done({ x: 0, y: 0, width: width.px, height: height.px, stated });
  }
  const numbers = boxText
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [x, y, w, h] = numbers as [number, number, number, number];
  if (numbers.length !== 4 || numbers.some((n) => !Number.isFinite(n) || Math.abs(n) > LARGEST_SIDE))
    return wrong('a viewBox that is not four sensible numbers');
  if (!(w > 0 && h > 0)) return wrong('a viewBox of no size');
  const stated = statedSize(width, height, w, h);
  return done({ x, y, width: w, height: h, stated });
}

/** Where width and height do not have the viewBox's shape, the drawing fits inside them at the smaller scale. */
function statedSize(width: Length | null, height: Length | null, w: number, h: number): SvgSize['stated'] {
  if (width?.mm === null || height?.mm === null) return null;
  const scales = [width ? width.mm / w : Infinity, height ? height.mm / h : Infinity] as const;
  const scale = Math.min(...scales);
  if (!Number.isFinite(scale)) return null;
  const same = Math.abs(scales[0] - scales[1]) <= 1e-9 * scale;
  return same && width && height
    ? { width: width.mm, height: height.mm }
    : { width: w * scale, height: h * scale };
}

/** Whole units along the longer side of a drawing whose own are not whole: shape and place are then true to 1e-4. */
const FINE_UNITS = 10_000;

/**
 * The size the program knows a drawing by: whole units from its upper left corner. They are the drawing's own where those
 * are whole, finer ones otherwise, since a job keeps whole numbers.
 */
export function unitsOf(size: SvgSize): { readonly width: number; readonly height: number } {
  const { width, height } = size;
  if (Number.isInteger(width) && Number.isInteger(height)) return { width, height };
  const k = FINE_UNITS / Math.max(width, height);
  return { width: Math.max(1, Math.round(width * k)), height: Math.max(1, Math.round(height * k)) };
}

const ROOT_SIZE = /\s(?:width|height|viewBox|preserveAspectRatio|x|y)\s*=\s*(?:"[^"]*"|'[^']*')/g;
/** The library draws at 72 points to the inch unless told; at 96 lengths in mm inside the drawing come out true. */
export const SVG_DENSITY = 96;
const POINTS_PER_PX = 72 / SVG_DENSITY;

/**
 * The drawing with another frame round it, so that just the window, in the units of `unitsOf`, is drawn, stretched to
 * `outWidth × outHeight` points at `SVG_DENSITY`. The drawing itself stays a whole inside the frame: its percentages and its own clip keep their meaning.
 */
export function framed(scan: SvgScan, size: SvgSize, window: SvgWindow): string {
  const tag = scan.text.slice(scan.rootStart, scan.rootEnd).replace(ROOT_SIZE, '');
  const styled = tag.replace(/(\sstyle\s*=\s*["'])([^"']*)/, (_, lead: string, style: string) => {
    const kept = style.split(';').filter((rule) => !/^\s*(width|height)\s*:/i.test(rule));
    return lead + kept.join(';');
  });
  const inner =
    `<${scan.rootName} x="${size.x}" y="${size.y}" width="${size.width}" height="${size.height}"` +
    ` viewBox="${size.x} ${size.y} ${size.width} ${size.height}" preserveAspectRatio="none"` +
    styled.slice(1 + scan.rootName.length);
  const units = unitsOf(size);
  const kx = size.width / units.width;
  const ky = size.height / units.height;
  const box = [size.x + window.x * kx, size.y + window.y * ky, window.width * kx, window.height * ky];
  const outer =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${window.outWidth * POINTS_PER_PX}"` +
    ` height="${window.outHeight * POINTS_PER_PX}" preserveAspectRatio="none"` +
    ` viewBox="${box.join(' ')}">`;
  return `${outer}${inner}${scan.text.slice(scan.rootEnd)}</svg>`;
}
