import type { Face } from '../deck/index.ts';
import type { Mm } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';
import { drawable, inkLabel, lettering, letteringWidth, shorten } from './lettering.ts';
import { bar, line, place, type Shape } from './shape.ts';

/** Height of a capital, mm: a little above the 2.2 mm that stays legible through a screen. */
export const LABEL_HEIGHT = 2.4;
const PITCH = 3.8;
const RULER = 100;
/** Room the ruler and its figures take, and the toner patch with its gap. */
const RULER_ROOM = 106;
const PATCH = 6;
const ARROW_ROOM = 10;
const ARROW_LEFT = 0.4;
/** mm a strip needs for its ruler and patch. */
export const SHORTEST_STRIP = RULER_ROOM + PATCH + 2;

export interface LabelText {
  readonly face: Face;
  readonly jobName: string;
  readonly film: Pick<FilmArt, 'inkName' | 'pull' | 'pulls' | 'meshPerCm' | 'screen'>;
  readonly filmWidth: Mm;
  readonly filmHeight: Mm;
  /** `2 of 5`, or `2/1 of 6` where sheets lie in columns and rows. */
  readonly sheet: string;
  readonly mirror: boolean;
}

/** What a strip says, in order of need. */
export function labelPhrases(text: LabelText): string[] {
  const { film } = text;
  return [
    text.face.toUpperCase(),
    shorten(inkLabel(film), 28),
    `pull ${film.pull} of ${film.pulls}`,
    `sheet ${text.sheet}`,
    ...(drawable(text.jobName) ? [shorten(text.jobName, 36)] : []),
    `mesh ${film.meshPerCm} threads/cm`,
    ...(film.screen ? [`${film.screen.lpi} lpi at ${film.screen.angleDeg}°`] : []),
    `film ${text.filmWidth.toFixed(1)} × ${text.filmHeight.toFixed(1)} mm`,
    text.mirror ? 'wrong reading, toner side up' : 'right reading, toner side up',
  ];
}

/** Widths of lines of a label, mm: the same ones are asked for by every sheet, and while sheets are planned. */
const widths = new Map<string, Mm>();
const MOST_WIDTHS = 2000;

function lineWidth(text: string): Mm {
  const known = widths.get(text);
  if (known !== undefined) return known;
  if (widths.size >= MOST_WIDTHS) widths.clear();
  const width = letteringWidth(text, LABEL_HEIGHT);
  widths.set(text, width);
  return width;
}

/** Phrases set in lines no longer than `room`; a phrase too long by itself is cut short. */
function setLines(phrases: readonly string[], room: Mm): string[] {
  const lines: string[] = [];
  for (const phrase of phrases) {
    let fit = phrase;
    for (let n = [...phrase].length; lineWidth(fit) > room && n > 1; n--) fit = shorten(phrase, n);
    const last = lines.at(-1);
    if (last !== undefined && lineWidth(`${last} · ${fit}`) <= room)
      lines[lines.length - 1] = `${last} · ${fit}`;
    else lines.push(fit);
  }
  return lines;
}

let rulerDrawn: readonly Shape[] | undefined;

/** A 100 mm ruler from x = 0, ticks upwards from y = 0, every millimetre of its ends and every 10 mm between. */
export function rulerShapes(): readonly Shape[] {
  rulerDrawn ??= drawRuler();
  return rulerDrawn;
}

function drawRuler(): Shape[] {
  const shapes: Shape[] = [bar(-0.06, 0, RULER + 0.12, 0.15)];
  for (let x = 0; x <= RULER; x++) {
    if (x > 10 && x < 90 && x % 5 !== 0) continue;
    const height = x % 50 === 0 ? 3.4 : x % 10 === 0 ? 2.6 : x % 5 === 0 ? 1.9 : 1.2;
    shapes.push(bar(x - 0.06, 0, 0.12, height));
  }
  for (const [at, text] of [
    [0, '0'],
    [50, '50'],
    [100, '100 mm'],
  ] as const) {
    const { shapes: letters, width } = lettering(text, 2.2, 0.25);
    const x = at === 100 ? RULER - width - 0.8 : at + 0.8;
    shapes.push(...place(letters, [1, 0, 0, 1, x, 4.2]));
  }
  return shapes;
}

/** How a strip is set: what stands beside what, its lines of text, and how deep that makes it, mm. */
function setStrip(text: LabelText, length: Mm) {
  const ruler = length >= SHORTEST_STRIP;
  const beside = length >= ARROW_ROOM + RULER_ROOM + PATCH + 2 + 70;
  const tail = beside ? RULER_ROOM + PATCH + 2 : 0;
  const room = length - ARROW_ROOM - tail - 1;
  const lines = setLines(labelPhrases(text), room);
  const textDepth = (lines.length - 1) * PITCH + LABEL_HEIGHT + 1.4;
  const lower = ruler && !beside ? 8 : 0;
  const depth = Math.max(lower + Math.max(textDepth, 8), 9);
  return { ruler, beside, room, lines, lower, depth };
}

/** The depth that `labelStrip` gives the strip, mm, without drawing it. */
export const labelDepth = (text: LabelText, length: Mm): Mm => setStrip(text, length).depth;

/**
 * The label strip of one sheet: arrow to the nose (up), text, ruler, toner patch. Origin at its lower left corner, +y to
 * the nose, mm; `length` is what it may take along x. `ruler` is false where 100 mm don't fit.
 */
export function labelStrip(
  text: LabelText,
  length: Mm,
): { readonly shapes: Shape[]; readonly depth: Mm; readonly ruler: boolean } {
  const { ruler, beside, room, lines, lower, depth } = setStrip(text, length);
  const shapes: Shape[] = [];
  const top = depth - LABEL_HEIGHT - 0.3;
  for (const [i, words] of lines.entries()) {
    shapes.push(
      ...place(lettering(words, LABEL_HEIGHT, 0.28).shapes, [1, 0, 0, 1, ARROW_ROOM, top - i * PITCH]),
    );
  }
  // Arrow to the nose, with the word at its foot: a lone N would be taken for north.
  const foot = lower + 0.6;
  const nose = lettering('NOSE', 2.2, 0.28);
  const middle = ARROW_LEFT + nose.width / 2;
  shapes.push(...place(nose.shapes, [1, 0, 0, 1, ARROW_LEFT, foot]));
  shapes.push(bar(middle - 0.4, foot + 2.9, 0.8, Math.max(1, depth - foot - 6)));
  shapes.push({
    kind: 'fill',
    points: [
      [middle, depth - 0.3],
      [middle - 1.9, depth - 3.4],
      [middle + 1.9, depth - 3.4],
    ],
  });
  if (ruler) {
    const x = beside ? length - RULER_ROOM + 2 : PATCH + 3;
    shapes.push(...place(rulerShapes(), [1, 0, 0, 1, x, 0.3]));
    shapes.push(bar(beside ? length - RULER_ROOM - PATCH : 0.6, 0.3, PATCH, PATCH));
  } else if (room > 20) shapes.push(line(0.2, [ARROW_ROOM, 0.2], [ARROW_ROOM + 10, 0.2]));
  return { shapes, depth, ruler };
}
