import { type FaceMetrics, HELVETICA, HELVETICA_BOLD } from './helvetica.generated.ts';

/** The two faces of type that every PDF reader has. */
export type Face = 'plain' | 'bold';

/** What each is called in a PDF. */
export const FACE_NAMES: Readonly<Record<Face, string>> = { plain: 'Helvetica', bold: 'Helvetica-Bold' };

/** WinAnsiEncoding from code 128 to 159, blank where it has no character (ISO 32000-1, annex D.2): the others are coded as in Unicode. */
const BEYOND_LATIN_1 = '€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ';

/** A character's code in WinAnsiEncoding; 0 for those that it lacks. */
function codeOf(unicode: number): number {
  if ((unicode >= 32 && unicode < 127) || (unicode >= 160 && unicode < 256)) return unicode;
  const at = unicode > 255 ? BEYOND_LATIN_1.indexOf(String.fromCharCode(unicode)) : -1;
  return at < 0 ? 0 : 128 + at;
}

/** Thousandths of the size: widths by code, and what is added between two, by 256 × the left one's code and the right one's. */
interface Widths {
  readonly widths: Int16Array;
  readonly between: Int16Array;
}

function widthsOf(face: FaceMetrics): Widths {
  const widths = new Int16Array(256);
  const between = new Int16Array(256 * 256);
  const codes = (letters: string) => Array.from(letters, (letter) => codeOf(letter.charCodeAt(0)));
  for (const [width, letters] of face.widths) for (const code of codes(letters)) widths[code] = width;
  for (const [amount, lefts, rights] of face.between) {
    const to = codes(rights);
    for (const left of codes(lefts)) for (const right of to) between[256 * left + right] = amount;
  }
  return { widths, between };
}

/** Made of the metrics when first asked for. */
const known: { plain?: Widths; bold?: Widths } = {};

/** Width of a text, points, kerning included; null where the faces can't spell it. */
export function textWidth(face: Face, text: string, size: number): number | null {
  known[face] ??= widthsOf(face === 'bold' ? HELVETICA_BOLD : HELVETICA);
  const { widths, between } = known[face];
  let total = 0;
  let last = 0;
  for (let i = 0; i < text.length; i++) {
    const code = codeOf(text.charCodeAt(i));
    if (code === 0) return null;
    total += widths[code]! + between[256 * last + code]!;
    last = code;
  }
  return (total * size) / 1000;
}

/** The text as a string of a page's operators, in hexadecimal; null where the faces can't spell it. */
export function spell(text: string): string | null {
  let out = '<';
  for (let i = 0; i < text.length; i++) {
    const code = codeOf(text.charCodeAt(i));
    if (code === 0) return null;
    out += code.toString(16).toUpperCase();
  }
  return `${out}>`;
}
