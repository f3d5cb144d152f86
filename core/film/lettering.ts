import type { Mm } from '../units/index.ts';
import { ACCENTS, BASELINE, CAP_HEIGHT, GLYPHS, LETTER_GAP } from './glyphs.ts';
import { GLYPHS_BEYOND_LATIN, LIKE_LATIN } from './glyphsBeyondLatin.ts';
import type { Shape } from './shape.ts';

type Strokes = readonly (readonly [number, number])[][];

const parse = (text: string): Strokes =>
  text.split(' ').map((stroke) => {
    const points: [number, number][] = [];
    for (let i = 0; i + 1 < stroke.length; i += 2) {
      points.push([Number.parseInt(stroke[i]!, 36), Number.parseInt(stroke[i + 1]!, 36) - BASELINE]);
    }
    return points;
  });

/** A letter's strokes, how wide they are and how high above the baseline. */
interface Letter {
  readonly strokes: Strokes;
  readonly width: number;
  readonly top: number;
}

/** Letters come again and again: each drawing is read once. There are some hundreds. */
const parsed = new Map<string, Letter>();

function read(text: string): Letter {
  let letter = parsed.get(text);
  if (!letter) {
    const strokes = parse(text);
    let [width, top] = [0, 0];
    for (const stroke of strokes)
      for (const [x, y] of stroke) {
        if (x > width) width = x;
        if (y > top) top = y;
      }
    letter = { strokes, width, top };
    parsed.set(text, letter);
  }
  return letter;
}

const strokesOf = (letter: string): string | undefined =>
  GLYPHS[letter] ?? GLYPHS_BEYOND_LATIN[letter] ?? GLYPHS[LIKE_LATIN[letter] ?? ''];

/** What stands for letters we cannot draw, where nobody could say it otherwise: one question mark for as many as stand together. */
const UNKNOWN = GLYPHS['?']!;

/** Marks that take no room and draw nothing: joiners, direction and variation marks. */
const silent = (code: number): boolean =>
  (code >= 0x200b && code <= 0x200f) ||
  (code >= 0x202a && code <= 0x202e) ||
  (code >= 0x2060 && code <= 0x206f) ||
  (code >= 0xfe00 && code <= 0xfe0f) ||
  code === 0xfeff ||
  (code >= 0xe0100 && code <= 0xe01ef);

const space = (code: number): boolean =>
  code <= 0x20 || code === 0xa0 || (code >= 0x2000 && code <= 0x200a) || code === 0x3000;

/** Are all letters of the text among those that `lettering` draws? Accents it lacks are left away and do not count. */
export function drawable(text: string): boolean {
  for (const letter of text.normalize('NFD')) {
    const code = letter.codePointAt(0) ?? 0;
    if (silent(code) || space(code) || (code >= 0x300 && code <= 0x36f)) continue;
    if (strokesOf(letter) === undefined) return false;
  }
  return true;
}

/** What films and papers call an ink: its name, or `Ink 5` after its pull where the name's script is not drawn. */
export const inkLabel = (ink: { readonly inkName: string; readonly pull: number }): string =>
  drawable(ink.inkName) ? ink.inkName : `Ink ${ink.pull}`;

/** Sets a line: hands each letter's and accent's strokes to `put` with their place, and returns how long the line is, all in glyph units. */
function setLetters(text: string, put?: (strokes: Strokes, dx: number, dy: number) => void): number {
  let pen = 0;
  let base = { x: 0, width: 0, top: CAP_HEIGHT };
  let unknown = false;
  for (const letter of text.normalize('NFD')) {
    const code = letter.codePointAt(0) ?? 0;
    if (silent(code)) continue;
    if (space(code)) {
      unknown = false;
      pen += 5;
      continue;
    }
    const accent = ACCENTS[letter];
    if (accent) {
      put?.(
        read(accent.strokes).strokes,
        base.x + base.width / 2 - 4,
        accent.below ? 0 : base.top + BASELINE - 1,
      );
      continue;
    }
    if (code >= 0x300 && code <= 0x36f) continue;
    const known = strokesOf(letter);
    if (known === undefined && unknown) continue;
    unknown = known === undefined;
    const { strokes, width, top } = read(known ?? UNKNOWN);
    put?.(strokes, pen, 0);
    base = { x: pen, width, top };
    pen += width + LETTER_GAP;
  }
  return Math.max(0, pen - LETTER_GAP);
}

/**
 * One line of text as strokes: origin at the left end of the baseline, +x along the line, mm. `capHeight` is the height of
 * a capital. Any Unicode text is taken; what has no drawing comes as a question mark, accents are put together.
 */
export function lettering(
  text: string,
  capHeight: Mm,
  weight: Mm = capHeight * 0.12,
): { readonly shapes: Shape[]; readonly width: Mm } {
  const unit = capHeight / CAP_HEIGHT;
  const shapes: Shape[] = [];
  const width = setLetters(text, (strokes, dx, dy) => {
    for (const stroke of strokes) {
      shapes.push({
        kind: 'line',
        width: weight,
        points: stroke.map(([x, y]) => [(x + dx) * unit, (y + dy) * unit] as const),
      });
    }
  });
  return { shapes, width: width * unit };
}

/** How long `lettering` makes the line, mm, without drawing it. */
export const letteringWidth = (text: string, capHeight: Mm): Mm =>
  setLetters(text) * (capHeight / CAP_HEIGHT);

/** Text cut to at most `letters` characters, the last an ellipsis where it was longer. */
export function shorten(text: string, letters: number): string {
  const all = [...text];
  return all.length <= letters
    ? text
    : `${all
        .slice(0, letters - 1)
        .join('')
        .trimEnd()}…`;
}
