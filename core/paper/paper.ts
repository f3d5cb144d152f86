import type { PDFRef } from 'pdf-lib';
import { ascii, drawShapes, lettering, num, PT, place, type Shape, type Stencil } from '../film/index.ts';
import { spell, textWidth } from './standardFont.ts';

/** Colours of printed guides, as PDF grey or RGB operands. */
export type Tint = readonly [number, number, number];
export const BLACK: Tint = [0, 0, 0];

/** A colour of the document (#rrggbb) as PDF operands, 0 to 1. */
export function tintOf(hex: string): Tint {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [part(1), part(3), part(5)];
}

/** A picture on a page: a stencil, or what the document holds already. */
export type PaperImage = Stencil | PDFRef;

/** A page written, mm: what it draws, packed, calls its pictures I1, I2 and so on, and the faces of its type P and B. */
export interface PaperPage {
  readonly width: number;
  readonly height: number;
  readonly content: Uint8Array;
  readonly images: readonly PaperImage[];
}

/** mm between the lines of a paragraph, by its size in points. */
const pitchOf = (size: number): number => (size * 1.36) / PT;

/**
 * One page of plain paper being written. Lengths mm, origin bottom left; text sizes in points. Type is set in the two faces that every PDF
 * reader has; names they can't spell are lettered by our own strokes.
 */
export class Paper {
  readonly width: number;
  readonly height: number;
  private readonly out: string[] = [];
  private readonly images: PaperImage[] = [];

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  /** Width of a line, mm. */
  measure(text: string, size: number, bold = false): number {
    const width = textWidth(bold ? 'bold' : 'plain', text, size);
    if (width !== null) return width / PT;
    return lettering(text, (size * 0.72) / PT).width;
  }

  text(
    x: number,
    y: number,
    text: string,
    size: number,
    options: { bold?: boolean; tint?: Tint; middle?: boolean } = {},
  ): void {
    const bold = options.bold ?? false;
    const tint = options.tint ?? BLACK;
    const left = options.middle ? x - this.measure(text, size, bold) / 2 : x;
    const codes = spell(text);
    if (codes === null) {
      const { shapes } = lettering(text, (size * 0.72) / PT);
      this.shapes(place(shapes, [1, 0, 0, 1, left, y]), tint);
      return;
    }
    this.out.push(
      `${tint.map(num).join(' ')} rg BT /${bold ? 'B' : 'P'} ${num(size)} Tf ${num(left * PT)} ${num(y * PT)} Td ${codes} Tj ET`,
    );
  }

  /** Text set in lines no wider than `width`, first baseline at `y`; gives the baseline after the last line. */
  paragraph(
    x: number,
    y: number,
    text: string,
    size: number,
    width: number,
    options: { bold?: boolean; tint?: Tint } = {},
  ): number {
    let at = y;
    for (const words of this.lines(text, size, width, options.bold)) {
      this.text(x, at, words, size, options);
      at -= pitchOf(size);
    }
    return at;
  }

  /** mm from the first baseline of a paragraph to the one that would follow its last. */
  paragraphHeight(text: string, size: number, width: number): number {
    return this.lines(text, size, width).length * pitchOf(size);
  }

  /** The text in lines no wider than `width` mm, broken at spaces. */
  private lines(text: string, size: number, width: number, bold?: boolean): string[] {
    const lines: string[] = [];
    let words = '';
    for (const word of text.split(' ')) {
      const longer = words === '' ? word : `${words} ${word}`;
      if (words !== '' && this.measure(longer, size, bold) > width) {
        lines.push(words);
        words = word;
      } else words = longer;
    }
    return words === '' ? lines : [...lines, words];
  }

  shapes(shapes: readonly Shape[], tint: Tint = BLACK): void {
    const colour = tint.map(num).join(' ');
    this.out.push(`q ${colour} rg ${colour} RG`, drawShapes(shapes), 'Q');
  }

  rect(
    x: number,
    y: number,
    width: number,
    height: number,
    fill: Tint | null,
    edge: Tint | null = null,
    edgeMm = 0.2,
  ): void {
    const box = [x, y, width, height].map((n) => num(n * PT)).join(' ');
    this.out.push('q');
    if (fill) this.out.push(`${fill.map(num).join(' ')} rg ${box} re f`);
    if (edge) this.out.push(`${edge.map(num).join(' ')} RG ${num(edgeMm * PT)} w ${box} re S`);
    this.out.push('Q');
  }

  /** A stencil (image mask) in the given colour. */
  stencil(image: PaperImage, x: number, y: number, width: number, height: number, tint: Tint): void {
    this.images.push(image);
    const at = [width, 0, 0, height, x, y].map((n) => num(n * PT)).join(' ');
    this.out.push(`q ${tint.map(num).join(' ')} rg ${at} cm /I${this.images.length} Do Q`);
  }

  /** The page as it is, what it draws packed; `deflate` is zlib-wrapped. */
  finish(deflate: (bytes: Uint8Array) => Uint8Array): PaperPage {
    const { width, height, images } = this;
    return { width, height, content: deflate(ascii(this.out.join('\n'))), images };
  }
}
