import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import type { FilmManifest } from '../../core/film/index.ts';

/** A picture of black (1) and white (0), one byte a pixel, row 0 at the top. */
export interface Bits {
  readonly width: number;
  readonly height: number;
  readonly at: Uint8Array;
}

/** A PNG as black and white, read by a general picture library. */
export async function bitsOfPng(png: Uint8Array | string): Promise<Bits> {
  const { data, info } = await sharp(png, { limitInputPixels: false })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const at = new Uint8Array(info.width * info.height);
  const step = info.channels;
  for (let i = 0; i < at.length; i++) at[i] = data[i * step]! < 128 ? 1 : 0;
  return { width: info.width, height: info.height, at };
}

/** One page of a PDF as poppler prints it at `dpi`, one bit a pixel, without smoothing. */
export function popplerPage(pdf: string, page: number, dpi: number, dir: string): Bits {
  const out = join(dir, 'page');
  const n = String(page);
  execFileSync('pdftoppm', ['-r', String(dpi), '-mono', '-f', n, '-l', n, '-singlefile', pdf, out]);
  const bytes = readFileSync(`${out}.pbm`);
  const head = /^P4\s+(\d+)\s+(\d+)\s/.exec(bytes.subarray(0, 200).toString('latin1'))!;
  const [width, height] = [Number(head[1]), Number(head[2])];
  const stride = (width + 7) >> 3;
  const at = new Uint8Array(width * height);
  let from = head[0].length;
  for (let y = 0; y < height; y++, from += stride) {
    for (let x = 0; x < width; x++) at[y * width + x] = (bytes[from + (x >> 3)]! >> (7 - (x & 7))) & 1;
  }
  return { width, height, at };
}

/** The pictures embedded in one page, in drawing order, as poppler takes them out (what a stencil paints is white): no marks, no labels. */
export async function pagePictures(pdf: string, page: number, dir: string): Promise<Bits[]> {
  const into = mkdtempSync(join(dir, 'pictures-'));
  const n = String(page);
  execFileSync('pdfimages', ['-png', '-f', n, '-l', n, pdf, join(into, 'p')]);
  const pictures: Bits[] = [];
  for (const name of readdirSync(into).sort()) {
    const picture = await bitsOfPng(join(into, name));
    for (let i = 0; i < picture.at.length; i++) picture.at[i]! ^= 1;
    pictures.push(picture);
  }
  rmSync(into, { recursive: true });
  return pictures;
}

type Film = FilmManifest['films'][number];
type Sheet = Film['sheets'][number];

/** Size in pixels of a window and where it lies in its film, as films.json has it; rounding noise must be all there is. */
export function windowPixels(film: Film, sheet: Sheet, dpi: number) {
  const scale = dpi / 25.4;
  const exact = {
    x: (sheet.window.x - film.box.x) * scale,
    y: (film.box.y + film.box.height - sheet.window.y - sheet.window.height) * scale,
    width: sheet.window.width * scale,
    height: sheet.window.height * scale,
  };
  const whole = {
    x: Math.round(exact.x),
    y: Math.round(exact.y),
    width: Math.round(exact.width),
    height: Math.round(exact.height),
  };
  const noise = Math.max(
    ...(['x', 'y', 'width', 'height'] as const).map((k) => Math.abs(exact[k] - whole[k])),
  );
  return { ...whole, noise };
}

/** Film mm of a window pixel's middle. */
export const middleOf = (sheet: Sheet, dpi: number, x: number, y: number): readonly [number, number] => [
  sheet.window.x + ((x + 0.5) * 25.4) / dpi,
  sheet.window.y + sheet.window.height - ((y + 0.5) * 25.4) / dpi,
];

/**
 * For every window pixel, in window order, what the page shows there: read through filmToPage alone. `step` is the page
 * offset of one window pixel to the right and one down, so that whole rows can be walked.
 */
export function pageWalk(sheet: Sheet, dpi: number, page: Pick<Bits, 'width'>, pageHeight: number) {
  const [a, b, c, d, e, f] = sheet.filmToPage as [number, number, number, number, number, number];
  const scale = dpi / 25.4;
  const pixel = (u: number, v: number) => {
    const [X, Y] = [a * u + c * v + e, b * u + d * v + f];
    return [X * scale, (pageHeight - Y) * scale] as const;
  };
  const [x0, y0] = pixel(...middleOf(sheet, dpi, 0, 0));
  const [x1, y1] = pixel(...middleOf(sheet, dpi, 1, 0));
  const [x2, y2] = pixel(...middleOf(sheet, dpi, 0, 1));
  const right = Math.round(x1 - x0) + Math.round(y1 - y0) * page.width;
  const down = Math.round(x2 - x0) + Math.round(y2 - y0) * page.width;
  return { from: Math.floor(y0) * page.width + Math.floor(x0), right, down };
}

/** mm about a mark's stated place within which its own lines may stand. */
const REACH: Readonly<Record<string, number>> = {
  registration: 5.5,
  hole: 6.5,
  'vernier-along': 9.5,
  'vernier-across': 9.5,
  nose: 6,
};

/** Window pixels where something besides the film's own image may be printed: about the marks, and in shared strips. */
export function markedPixels(film: Film, sheet: Sheet, dpi: number): Uint8Array {
  const { width, height } = windowPixels(film, sheet, dpi);
  const scale = dpi / 25.4;
  const out = new Uint8Array(width * height);
  const top = sheet.window.y + sheet.window.height;
  const fill = (x0: number, y0: number, x1: number, y1: number) => {
    const [l, r] = [
      Math.max(0, Math.floor((x0 - sheet.window.x) * scale)),
      Math.min(width, Math.ceil((x1 - sheet.window.x) * scale)),
    ];
    const [t, b] = [
      Math.max(0, Math.floor((top - y1) * scale)),
      Math.min(height, Math.ceil((top - y0) * scale)),
    ];
    for (let y = t; y < b; y++) if (l < r) out.fill(1, y * width + l, y * width + r);
  };
  for (const { kind, x, y } of film.marks) {
    const reach = REACH[kind] ?? Number.NaN;
    fill(x - reach, y - reach, x + reach, y + reach);
  }
  for (const other of film.sheets) {
    if (other.page === sheet.page || !sheet.cuts.some((cut) => cut.with === other.page)) continue;
    const w = other.window;
    fill(w.x, w.y, w.x + w.width, w.y + w.height);
  }
  return out;
}
