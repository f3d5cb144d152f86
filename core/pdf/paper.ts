import { type PDFDocument, type PDFFont, PDFName, type PDFRef, StandardFonts } from 'pdf-lib';
import { ascii, drawShapes, lettering, num, PT, place, type Shape } from '../film/index.ts';
import { addSheetPage, addStream, type Deflate } from './document.ts';
import { textWidth } from './textWidth.ts';

/** Colours of printed guides, as PDF grey or RGB operands. */
export type Tint = readonly [number, number, number];
export const BLACK: Tint = [0, 0, 0];

/** A colour of the document (#rrggbb) as PDF operands, 0 to 1. */
export function tintOf(hex: string): Tint {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [part(1), part(3), part(5)];
}

export interface Fonts {
  readonly plain: PDFFont;
  readonly bold: PDFFont;
}

/** The two faces every PDF reader has; names they can't spell are lettered by our own strokes. */
export async function standardFonts(doc: PDFDocument): Promise<Fonts> {
  return {
    plain: await doc.embedFont(StandardFonts.Helvetica),
    bold: await doc.embedFont(StandardFonts.HelveticaBold),
  };
}

/** mm between the lines of a paragraph, by its size in points. */
const pitchOf = (size: number): number => (size * 1.36) / PT;

/** One page of plain paper being written. Lengths mm, origin bottom left; text sizes in points. */
export class Paper {
  readonly width: number;
  readonly height: number;
  private readonly out: string[] = [];
  private readonly images: PDFRef[] = [];
  private readonly fonts: Fonts;

  constructor(fonts: Fonts, width: number, height: number) {
    this.fonts = fonts;
    this.width = width;
    this.height = height;
  }

  private spell(font: PDFFont, text: string): string | null {
    try {
      return font.encodeText(text).toString();
    } catch {
      return null;
    }
  }

  /** Width of a line, mm. */
  measure(text: string, size: number, bold = false): number {
    const width = textWidth(bold ? this.fonts.bold : this.fonts.plain, text, size);
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
    const codes = this.spell(bold ? this.fonts.bold : this.fonts.plain, text);
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
  stencil(image: PDFRef, x: number, y: number, width: number, height: number, tint: Tint): void {
    this.images.push(image);
    const at = [width, 0, 0, height, x, y].map((n) => num(n * PT)).join(' ');
    this.out.push(`q ${tint.map(num).join(' ')} rg ${at} cm /I${this.images.length} Do Q`);
  }

  /** Writes the page into the document. */
  finish(doc: PDFDocument, deflate: Deflate): void {
    const page = addSheetPage(doc, this.width, this.height);
    const images = Object.fromEntries(this.images.map((ref, i) => [`I${i + 1}`, ref]));
    page.node.set(
      PDFName.of('Resources'),
      doc.context.obj({ Font: { P: this.fonts.plain.ref, B: this.fonts.bold.ref }, XObject: images }),
    );
    page.node.set(PDFName.of('Contents'), addStream(doc, ascii(this.out.join('\n')), deflate));
  }
}
