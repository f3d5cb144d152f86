import { paletteTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { parseHex, toHex } from './srgb.ts';

/** A named colour of a palette: `hex` is #rrggbb, lower case. */
export interface NamedColour {
  readonly name: string;
  readonly hex: string;
}

/** More colours than this is a gradient, not a palette of inks. */
const MOST_COLOURS = 4096;
const LONGEST_NAME = 120;
const tidy = (name: string, hex: string) => name.trim().slice(0, LONGEST_NAME) || hex;

/** `#rgb` or `#rrggbb`, with or without the sign; null when it is neither. */
function anyHex(value: unknown): string | null {
  const match = typeof value === 'string' ? /^\s*#?([0-9a-f]{3}|[0-9a-f]{6})\s*$/i.exec(value) : null;
  if (!match) return null;
  const digits = match[1]!.toLowerCase();
  return `#${digits.length === 3 ? [...digits].map((d) => d + d).join('') : digits}`;
}

function readGpl(lines: readonly string[]): Outcome<NamedColour[]> {
  const colours: NamedColour[] = [];
  for (const [i, line] of lines.entries()) {
    if (i === 0 || /^\s*(#|$)/.test(line) || /^\s*(Name|Columns)\s*:/i.test(line)) continue;
    const match = /^\s*(\d{1,3})\s+(\d{1,3})\s+(\d{1,3})(?:\s+(.*))?$/.exec(line);
    const bytes = match ? [Number(match[1]), Number(match[2]), Number(match[3])] : [];
    if (!match || bytes.some((v) => v > 255)) return paletteTrouble.lineUnread(i + 1);
    const hex = toHex([bytes[0]!, bytes[1]!, bytes[2]!]);
    colours.push({ hex, name: tidy(match[4] ?? '', hex) });
  }
  return done(colours);
}

function readJson(text: string): Outcome<NamedColour[]> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return paletteTrouble.notWholeJson();
  }
  const named = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;
  if (named(value) && !Array.isArray(value)) value = value['colours'] ?? value['colors'];
  if (!Array.isArray(value)) return paletteTrouble.noList();
  const colours: NamedColour[] = [];
  for (const [i, item] of value.entries()) {
    const hex = anyHex(named(item) ? item['hex'] : item);
    if (hex === null) return paletteTrouble.colourWithoutHex(i + 1);
    const name = named(item) && typeof item['name'] === 'string' ? item['name'] : '';
    colours.push({ hex, name: tidy(name, hex) });
  }
  return done(colours);
}

/** Reads a palette: GIMP palette text, or JSON (a list of hex texts or of `{ name, hex }`, or `{ colours: [...] }`). */
export function parsePalette(text: string): Outcome<NamedColour[]> {
  const bare = text.replace(/^\uFEFF/, '');
  const isGpl = /^GIMP Palette\s*(\r?\n|$)/.test(bare);
  if (!isGpl && !/^\s*[[{]/.test(bare)) return paletteTrouble.unknownForm();
  const read = isGpl ? readGpl(bare.split(/\r\n|\n|\r/)) : readJson(bare);
  if (!read.ok) return read;
  if (read.value.length === 0) return paletteTrouble.empty();
  if (read.value.length > MOST_COLOURS) return paletteTrouble.tooManyColours(read.value.length, MOST_COLOURS);
  return read;
}

/** GIMP palette text: an open format that drawing programs read. Names lose line breaks. */
export function writeGpl(name: string, colours: readonly NamedColour[]): string {
  const oneLine = (text: string) => text.replace(/\s+/g, ' ').trim();
  const number = (v: number) => String(v).padStart(3, ' ');
  const lines = colours.map(({ name: n, hex }) => {
    const [r, g, b] = parseHex(hex);
    return `${number(r)} ${number(g)} ${number(b)}\t${oneLine(n)}`;
  });
  return `${['GIMP Palette', `Name: ${oneLine(name)}`, 'Columns: 0', '#', ...lines].join('\n')}\n`;
}

/** Plain JSON: `{ name, colours: [{ name, hex }] }`. */
export const writePaletteJson = (name: string, colours: readonly NamedColour[]): string =>
  `${JSON.stringify({ name, colours: colours.map(({ name: n, hex }) => ({ name: n, hex })) }, null, 2)}\n`;
