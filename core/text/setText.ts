import type { GlyphPath } from 'fontkit';
import { textTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import type { Lettering } from './font.ts';
import { MOST_LETTERS, MOST_LINES, type TextSetting } from './setting.ts';

/** Set words: an SVG whose user units are mm, just as large as its ink. */
export interface SetText {
  readonly svg: string;
  /** mm. */
  readonly width: number;
  readonly height: number;
}

/** Points of outlines that words may have: far more than any lettering, far less than would hold a machine up. */
const MOST_POINTS = 400_000;

/** A letter at its place on a straight line, mm, y up, the line's own baseline at 0. */
interface Placed {
  readonly path: GlyphPath;
  /** mm a unit of its font. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly advance: number;
}

/** Cuts a line where the font changes, so that each part is shaped by the first font that has its letters. */
function runsOf(line: string, fonts: readonly Lettering[]): Outcome<{ text: string; font: Lettering }[]> {
  const runs: { text: string; font: Lettering }[] = [];
  for (const letter of line) {
    const code = letter.codePointAt(0) as number;
    const font = fonts.find((f) => f.has(code));
    if (!font) return textTrouble.letterMissing(letter);
    const last = runs.at(-1);
    if (last?.font === font) last.text += letter;
    else runs.push({ text: letter, font });
  }
  return done(runs);
}

function setLine(
  line: string,
  fonts: readonly Lettering[],
  { cap, tracking }: TextSetting,
): Outcome<{ letters: Placed[]; width: number }> {
  const runs = runsOf(line, fonts);
  if (!runs.ok) return runs;
  const letters: Placed[] = [];
  let x = 0;
  for (const { text, font } of runs.value) {
    const scale = cap / font.capHeight;
    const shaped = font.layout(text);
    if (!shaped.ok) return shaped;
    for (const { path, xAdvance, xOffset, yOffset } of shaped.value) {
      const advance = xAdvance * scale;
      letters.push({ path, scale, x: x + xOffset * scale, y: yOffset * scale, advance });
      x += advance + tracking;
    }
  }
  return done({ letters, width: Math.max(0, x - tracking) });
}

/** Where a letter's own middle goes on the circle, and how far it turns; see `TextSetting.arc`. */
function onCircle(x: number, drop: number, arc: number) {
  const up = arc > 0;
  const radius = Math.abs(arc) + (up ? -drop : drop);
  const angle = x / radius;
  const turn = up ? -angle : angle;
  const rise = radius * Math.cos(angle) - Math.abs(arc);
  return { x: radius * Math.sin(angle), y: up ? rise : -rise, turn };
}

const round = (n: number) => {
  const text = n.toFixed(3);
  return text.includes('.') ? text.replace(/\.?0+$/, '').replace(/^-0$/, '0') : text;
};
const LETTER = {
  moveTo: 'M',
  lineTo: 'L',
  quadraticCurveTo: 'Q',
  bezierCurveTo: 'C',
  closePath: 'Z',
} as const;

/**
 * Words as outlines. `fonts` in the order they are asked for a letter. Refuses, in a sentence: no words, too many, letters no font
 * has, and lines that a circle can not hold.
 */
export function setText(fonts: readonly Lettering[], setting: TextSetting): Outcome<SetText> {
  const { words, cap, leading, align, arc } = setting;
  const lines = words.replace(/\r\n?/g, '\n').replaceAll('\t', ' ').split('\n');
  if (words.trim() === '') return textTrouble.noWords();
  if (words.length > MOST_LETTERS || lines.length > MOST_LINES)
    return textTrouble.tooLong(words.length, lines.length, MOST_LETTERS, MOST_LINES);
  const set = [];
  for (const line of lines) {
    const made = setLine(line, fonts, setting);
    if (!made.ok) return made;
    set.push(made.value);
  }
  const widest = Math.max(...set.map((line) => line.width));
  const share = { left: 0, centre: 0.5, right: 1 }[align];
  const placed: GlyphPath[] = [];
  for (const [i, { letters, width }] of set.entries()) {
    const drop = i * leading * cap;
    const start = (widest - width) * share - widest / 2;
    if (arc !== 0) {
      const radius = Math.abs(arc) + (arc > 0 ? -drop : drop);
      if (radius <= cap / 2 || widest > 2 * Math.PI * radius)
        return textTrouble.circleTooSmall(round(Math.abs(arc)));
    }
    for (const letter of letters) {
      const middle = start + letter.x + letter.advance / 2;
      const at = arc === 0 ? { x: middle, y: -drop, turn: 0 } : onCircle(middle, drop, arc);
      const [cos, sin] = [Math.cos(at.turn), Math.sin(at.turn)];
      const k = letter.scale;
      // The letter's own left end and lift, turned about its middle; then y down, as SVG has it.
      const [ox, oy] = [-letter.advance / 2, letter.y];
      const x = at.x + cos * ox - sin * oy;
      const y = at.y + sin * ox + cos * oy;
      placed.push(letter.path.transform(k * cos, -k * sin, -k * sin, -k * cos, x, -y));
    }
  }
  return drawn(placed, setting.hex);
}

/** The outlines as one SVG, moved so that their ink begins at 0, 0. */
function drawn(paths: readonly GlyphPath[], hex: string): Outcome<SetText> {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  let points = 0;
  for (const path of paths) {
    if (path.commands.length === 0) continue;
    points += path.commands.length;
    const { minX, minY, maxX, maxY } = path.bbox;
    [x0, y0, x1, y1] = [Math.min(x0, minX), Math.min(y0, minY), Math.max(x1, maxX), Math.max(y1, maxY)];
  }
  const [width, height] = [x1 - x0, y1 - y0];
  if (!(width > 0 && height > 0)) return textTrouble.blank();
  if (points > MOST_POINTS) return textTrouble.tooFine();
  if (!(width <= 5000 && height <= 5000)) return textTrouble.tooLarge(Math.round(width), Math.round(height));
  const d = paths
    .map((path) =>
      path.commands
        .map(
          ({ command, args }) =>
            LETTER[command] + args.map((n, i) => round(n - (i % 2 === 0 ? x0 : y0))).join(' '),
        )
        .join(''),
    )
    .filter((part) => part !== '')
    .join('');
  const [w, h] = [Math.max(0.1, width), Math.max(0.1, height)].map(round) as [string, string];
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}"><path fill="${hex}" d="${d}"/></svg>\n`;
  return done({ svg, width: Number(w), height: Number(h) });
}
