import { type PDFDocument, PDFName } from 'pdf-lib';
import {
  type Affine,
  ascii,
  drawShapes,
  type FaceLayout,
  type FilmLayout,
  filmMask,
  INSET_PX,
  num,
  PT,
  place,
} from '../film/index.ts';
import { addSheetPage, addStream, markTrapped, newDocument, saveDocument } from './document.ts';
import type { FilmsPdfOptions } from './filmsPdf.ts';
import { addImageMask } from './imageMask.ts';

/** Text as UTF-8, one byte a character, as PDF names hold it; stray half characters come as the replacement sign. */
export function utf8(text: string): string {
  const whole = text.replace(/\p{Surrogate}/gu, '\ufffd');
  return encodeURIComponent(whole).replace(/%([0-9A-F]{2})/g, (_, hex) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}

/** A PDF name object of any text (ISO 32000-1, 7.3.5: bytes outside the regular ones as #xx). */
const nameOf = (text: string): PDFName =>
  PDFName.of(
    [...utf8(text)]
      .map((c) => (/[A-Za-z0-9_.-]/.test(c) ? c : `#${c.charCodeAt(0).toString(16).padStart(2, '0')}`))
      .join(''),
  );

/**
 * Colorant names, one a film: the ink's own name, numbered where two inks share it. `All` and `None` mean something else
 * in a Separation space (ISO 32000-1, 8.6.6.4) and so get a word added.
 */
export function colorantNames(inks: readonly string[]): string[] {
  const taken = new Set<string>();
  return inks.map((ink) => {
    const plain = /^(all|none)$/i.test(ink.trim()) ? `${ink.trim()} ink` : ink.trim() || 'ink';
    let name = plain;
    for (let n = 2; taken.has(name); n++) name = `${plain} ${n}`;
    taken.add(name);
    return name;
  });
}

/** sRGB as plain process amounts, only to show the ink where it is not printed as itself. */
function processOf(hex: string): number[] {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255) as [
    number,
    number,
    number,
  ];
  const k = 1 - Math.max(r, g, b);
  if (k >= 1) return [0, 0, 0, 1];
  return [r, g, b].map((c) => (1 - c - k) / (1 - k)).concat(k);
}

/** The rectangle that holds all films of a face, film space mm. */
function hull(films: readonly FilmLayout[]) {
  const x = Math.min(...films.map(({ box }) => box.x));
  const y = Math.min(...films.map(({ box }) => box.y));
  return {
    x,
    y,
    width: Math.max(...films.map(({ box }) => box.x + box.width)) - x,
    height: Math.max(...films.map(({ box }) => box.y + box.height)) - y,
  };
}

function addFacePage(doc: PDFDocument, layout: FaceLayout, options: FilmsPdfOptions): void {
  const { context } = doc;
  const area = hull(layout.films);
  const page = addSheetPage(doc, area.width, area.height);
  const toPage: Affine = [1, 0, 0, 1, -area.x, -area.y];
  const names = colorantNames(layout.films.map((film) => film.art.inkName));
  const spaces: Record<string, ReturnType<typeof context.obj>> = {};
  const images: Record<string, ReturnType<typeof addImageMask>> = {};
  const out = ['/Over gs'];
  const inset = (INSET_PX * 72) / layout.dpi;
  for (const [i, film] of layout.films.entries()) {
    const tint = context.obj({
      FunctionType: 2,
      Domain: [0, 1],
      C0: [0, 0, 0, 0],
      C1: processOf(film.art.hex),
      N: 1,
    });
    spaces[`Ink${i}`] = context.obj([
      PDFName.of('Separation'),
      nameOf(names[i]!),
      PDFName.of('DeviceCMYK'),
      tint,
    ]);
    images[`Film${i}`] = addImageMask(doc, filmMask(film), options.deflate);
    const [x, y] = [(film.box.x - area.x) * PT, (film.box.y - area.y) * PT];
    out.push(
      `/Ink${i} cs 1 scn /Ink${i} CS 1 SCN`,
      'q',
      `${num(film.box.width * PT - 2 * inset)} 0 0 ${num(film.box.height * PT - 2 * inset)} ${num(x + inset)} ${num(y + inset)} cm`,
      `/Film${i} Do`,
      'Q',
      drawShapes(film.marks.flatMap((mark) => place(mark.shapes, toPage))),
    );
  }
  page.node.set(
    PDFName.of('Resources'),
    context.obj({
      ColorSpace: spaces,
      XObject: images,
      // Every ink prints over what lies under it: nothing knocks out but what the films already do.
      ExtGState: { Over: { Type: 'ExtGState', OP: true, op: true, OPM: 1 } },
    }),
  );
  page.node.set(PDFName.of('Contents'), addStream(doc, ascii(out.join('\n')), options.deflate));
}

/**
 * separations.pdf, for a film house: one composite page a face, whole film size, a Separation colour space per ink named
 * as the ink, overprint set, traps already made. Splitting it gives the films with their common marks. Ink names may be any
 * text; two inks of one name are numbered. Empty when `abort` says so.
 */
export async function separationsPdf(
  layouts: readonly FaceLayout[],
  options: FilmsPdfOptions,
): Promise<Uint8Array> {
  const doc = await newDocument(
    `${options.jobName}: separations`,
    'One composite page a face, one separation an ink',
  );
  for (const layout of layouts) {
    if (options.abort?.aborted) return new Uint8Array(0);
    addFacePage(doc, layout, options);
  }
  markTrapped(doc);
  return saveDocument(doc);
}
