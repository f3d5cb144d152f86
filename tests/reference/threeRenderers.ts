import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A page as one program shows it: `channels` bytes a point (or 1 bit a point, packed, for films), row 0 at the top. */
export interface Shown {
  readonly width: number;
  readonly height: number;
  readonly stride: number;
  readonly data: Uint8Array;
}

export const RENDERERS = ['poppler', 'mupdf', 'ghostscript'] as const;
export type RendererName = (typeof RENDERERS)[number];

/** How a page is shown: black and white without smoothing, colours without smoothing, or smoothed greys. */
export type Manner = 'bits' | 'colours' | 'greys';

/** Each manner in the programs' own words, and bytes a point. */
const MANNERS = {
  bits: { magic: 'P4', ext: 'pbm', poppler: ['-mono'], mupdf: ['-A', '0'], gs: ['-sDEVICE=pbmraw'] },
  colours: {
    magic: 'P6',
    ext: 'ppm',
    poppler: ['-aa', 'no', '-aaVector', 'no'],
    mupdf: ['-A', '0', '-c', 'rgb'],
    gs: ['-sDEVICE=ppmraw'],
  },
  greys: {
    magic: 'P5',
    ext: 'pgm',
    poppler: ['-gray'],
    mupdf: ['-c', 'gray'],
    gs: ['-sDEVICE=pgmraw', '-dTextAlphaBits=4', '-dGraphicsAlphaBits=4'],
  },
} as const;

/** One page of `pdf` by one of three independent programs. */
export function shownBy(
  tool: RendererName,
  pdf: string,
  page: number,
  dpi: number,
  manner: Manner,
  dir: string,
): Shown {
  const { magic, ext, ...args } = MANNERS[manner];
  const n = String(page);
  const out = join(dir, `${tool}.${ext}`);
  const quiet = { stdio: 'ignore' } as const;
  if (tool === 'poppler') {
    const name = join(dir, tool);
    execFileSync(
      'pdftoppm',
      ['-r', String(dpi), ...args.poppler, '-f', n, '-l', n, '-singlefile', pdf, name],
      quiet,
    );
  } else if (tool === 'mupdf')
    execFileSync(
      'mutool',
      ['draw', '-q', '-r', String(dpi), ...args.mupdf, '-F', ext, '-o', out, pdf, n],
      quiet,
    );
  else
    execFileSync(
      'gs',
      [
        ...['-q', '-dNOPAUSE', '-dBATCH', '-dSAFER', ...args.gs, `-r${dpi}`],
        ...[`-dFirstPage=${n}`, `-dLastPage=${n}`, `-sOutputFile=${out}`, pdf],
      ],
      quiet,
    );
  const bytes = readFileSync(out);
  const head = /^(P\d)\s+(?:#[^\n]*\n)*(\d+)\s+(\d+)\s(?:255\s)?/.exec(
    bytes.subarray(0, 400).toString('latin1'),
  )!;
  if (head[1] !== magic) throw new Error(`${tool} wrote ${head[1]} where ${magic} was asked.`);
  const [width, height] = [Number(head[2]), Number(head[3])];
  const stride = manner === 'bits' ? (width + 7) >> 3 : manner === 'colours' ? 3 * width : width;
  return { width, height, stride, data: bytes.subarray(head[0].length) };
}

/** Points of a page shown in colours that are not bare, one bit a point as `bits` has them. */
export function painted({ width, height, data, stride: from }: Shown): Shown {
  const stride = (width + 7) >> 3;
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++)
    for (let x = 0, at = y * from; x < width; x++, at += 3)
      if ((data[at]! & data[at + 1]! & data[at + 2]!) < 255) out[y * stride + (x >> 3)]! |= 128 >> (x & 7);
  return { width, height, stride, data: out };
}

export const bit = ({ data, stride }: Shown, x: number, y: number): number =>
  (data[y * stride + (x >> 3)]! >> (7 - (x & 7))) & 1;

/** Is a point like (x, y) of `a` found in `b` within `reach` points along and across? */
function foundWithin(a: Shown, b: Shown, x: number, y: number, reach: number): boolean {
  const like = bit(a, x, y);
  for (let j = Math.max(0, y - reach); j <= Math.min(b.height - 1, y + reach); j++)
    for (let i = Math.max(0, x - reach); i <= Math.min(b.width - 1, x + reach); i++)
      if (bit(b, i, j) === like) return true;
  return false;
}

export interface Differences {
  /** Points that only one of the two shows, and may not. */
  readonly wrong: number;
  /** Points of drawn lines that one shows further than `reach` from all of the other's. */
  readonly far: number;
  /** All points that differ. */
  readonly all: number;
}

/**
 * Where two one-bit pages differ. `exact` says of a point whether both must show the same there; elsewhere a line's edge may lie
 * up to `reach` points apart (Infinity: anywhere). Programs round a page to whole points each their own way: what only one of them has does not count.
 */
export function differences(
  a: Shown,
  b: Shown,
  exact: (x: number, y: number) => boolean,
  reach: number,
): Differences {
  const [width, height] = [Math.min(a.width, b.width), Math.min(a.height, b.height)];
  if (Math.abs(a.width - b.width) > 1 || Math.abs(a.height - b.height) > 1)
    throw new Error('The two pages are not of one size.');
  let [wrong, far, all] = [0, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let w = 0; w < (width + 7) >> 3; w++) {
      if (a.data[y * a.stride + w] === b.data[y * b.stride + w]) continue;
      for (let x = w * 8; x < Math.min(width, w * 8 + 8); x++) {
        if (bit(a, x, y) === bit(b, x, y)) continue;
        all++;
        if (exact(x, y)) wrong++;
        else if (
          Number.isFinite(reach) &&
          (!foundWithin(a, b, x, y, reach) || !foundWithin(b, a, x, y, reach))
        )
          far++;
      }
    }
  }
  return { wrong, far, all };
}

/** Mean grey of every whole square of `side` points. */
export function cellMeans({ width, height, data, stride }: Shown, side: number) {
  const [columns, rows] = [Math.floor(width / side), Math.floor(height / side)];
  const at = new Float64Array(columns * rows);
  for (let y = 0; y < rows * side; y++)
    for (let x = 0; x < columns * side; x++)
      at[Math.floor(y / side) * columns + Math.floor(x / side)]! += data[y * stride + x]! / side / side;
  return { columns, rows, at };
}
