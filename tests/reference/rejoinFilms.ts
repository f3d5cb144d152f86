import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { FilmManifest } from '../../core/film/index.ts';
import type { Mask } from '../../core/raster/index.ts';
import { windowPixels } from './filmPages.ts';

type Film = FilmManifest['films'][number];

/** A picture of one bit a pixel: 1 is ink, rows from the top, whole bytes a row, least significant bit first as masks have it. */
export interface PackedBits {
  readonly width: number;
  readonly height: number;
  readonly stride: number;
  readonly data: Uint8Array;
}

/** Every byte with its bits the other way round. */
const REVERSED = Uint8Array.from({ length: 256 }, (_, byte) =>
  [0, 1, 2, 3, 4, 5, 6, 7].reduce((out, i) => out | (((byte >> i) & 1) << (7 - i)), 0),
);

const blank = (width: number, height: number): PackedBits => {
  const stride = (width + 7) >> 3;
  return { width, height, stride, data: new Uint8Array(stride * height) };
};

/** The stencils of one page, in drawing order, as poppler takes them out: a packed bitmap, where what a stencil paints is 0. */
function pageStencils(pdf: string, page: number, dir: string): PackedBits[] {
  const into = mkdtempSync(join(dir, 'stencils-'));
  const n = String(page);
  execFileSync('pdfimages', ['-f', n, '-l', n, pdf, join(into, 'p')]);
  const stencils = readdirSync(into)
    .sort()
    .map((name) => {
      const bytes = readFileSync(join(into, name));
      const head = /^P4\s+(?:#[^\n]*\n)*(\d+)\s+(\d+)\s/.exec(bytes.subarray(0, 200).toString('latin1'));
      if (!head) throw new Error(`${name} of page ${page} is not a picture of one bit a pixel.`);
      const made = blank(Number(head[1]), Number(head[2]));
      const from = head[0].length;
      const spare = 255 >> ((8 - (made.width & 7)) & 7);
      for (let i = 0; i < made.data.length; i++) made.data[i] = REVERSED[bytes[from + i]! ^ 255]!;
      for (let i = made.stride - 1; i < made.data.length; i += made.stride) made.data[i]! &= spare;
      return made;
    });
  rmSync(into, { recursive: true });
  return stencils;
}

/** A picture that lies nose up on its page, laid nose to the right again: its top row is the last column. Point by point. */
function laidDown({ width, height, stride, data }: PackedBits): PackedBits {
  const out = blank(height, width);
  for (let row = 0; row < height; row++) {
    const x = height - 1 - row;
    for (let i = 0; i < stride; i++) {
      const byte = data[row * stride + i]!;
      if (byte === 0) continue;
      for (let b = 0; b < 8; b++)
        if ((byte >> b) & 1) out.data[(8 * i + b) * out.stride + (x >> 3)]! |= 1 << (x & 7);
    }
  }
  return out;
}

/** Inks `whole` wherever `part` has ink, part's corner at (x, y). */
function layInto(whole: PackedBits, part: PackedBits, x: number, y: number): void {
  const shift = x & 7;
  for (let row = 0; row < part.height; row++) {
    const to = (y + row) * whole.stride + (x >> 3);
    for (let i = 0; i < part.stride; i++) {
      const byte = part.data[row * part.stride + i]! << shift;
      if (byte === 0) continue;
      whole.data[to + i]! |= byte;
      // Only where there are points left: past the last byte of a row stands the next row.
      if (byte > 255) whole.data[to + i + 1]! |= byte >> 8;
    }
  }
}

/** A film put together again from the pictures of its pages, by films.json alone; `dir` holds what is needed on the way. */
export function rejoined(pdf: string, manifest: FilmManifest, film: Film, dir: string): PackedBits {
  const { dpi } = manifest;
  const whole = blank(Math.round((film.box.width * dpi) / 25.4), Math.round((film.box.height * dpi) / 25.4));
  for (const sheet of film.sheets) {
    const at = windowPixels(film, sheet, dpi);
    if (at.noise > 1e-6) throw new Error(`The window on page ${sheet.page} is not on whole pixels.`);
    const [a, b] = sheet.filmToPage as [number, number];
    // Films that share a page lie there in the order films.json has them.
    const before = manifest.films
      .filter((one) => one.sheets.some((s) => s.page === sheet.page))
      .indexOf(film);
    const picture = pageStencils(pdf, sheet.page, dir)[before];
    const part = picture && Math.abs(b) > Math.abs(a) ? laidDown(picture) : picture;
    if (part?.width !== at.width || part.height !== at.height)
      throw new Error(`The picture on page ${sheet.page} is not as large as its window.`);
    layInto(whole, part, at.x, at.y);
  }
  return whole;
}

/** Set bits of a byte. */
const ONES = Uint8Array.from({ length: 256 }, (_, byte) => {
  let n = 0;
  for (let rest = byte; rest > 0; rest &= rest - 1) n++;
  return n;
});

/** Points in which a film put together differs from its mask, and how many points of the mask have ink. */
export function against(want: Mask, film: PackedBits): { readonly wrong: number; readonly inked: number } {
  if (film.width !== want.width || film.height !== want.height)
    throw new Error('A film put together is not as large as its mask.');
  let [wrong, inked] = [0, 0];
  for (let y = 0; y < film.height; y++) {
    const words = new Uint8Array(want.data.buffer, want.data.byteOffset + 4 * y * want.stride, film.stride);
    for (let i = 0; i < film.stride; i++) {
      const byte = words[i]!;
      inked += ONES[byte]!;
      wrong += ONES[byte ^ film.data[y * film.stride + i]!]!;
    }
  }
  return { wrong, inked };
}
