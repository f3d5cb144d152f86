import { basename } from 'node:path';
import type { Face } from '../../core/deck/index.ts';
import type { Job, TextData } from '../../core/job/index.ts';
import { placeText, usualText } from '../../core/placeText.ts';
import type { Picture } from '../../core/raster/index.ts';
import { optionTrouble, textTrouble } from '../../core/sentences/index.ts';
import { MOST_FONT_BYTES, type SetText, TYPEFACES, type WordsInput } from '../../core/text/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { hashOf, typefaceFiles } from '../host/index.ts';
import { fontDir } from '../places.ts';
import { lookAt } from './artIn.ts';
import type { Context } from './context.ts';
import { choiceOf, type Given, lengthOf, type OptionSpec, unknown } from './options.ts';

export const TEXT_OPTIONS: readonly OptionSpec[] = [
  { name: 'text', value: 'WORDS', help: 'words as outlines; \\n begins a new line' },
  {
    name: 'font',
    value: 'NAME|FILE',
    help: `${TYPEFACES.map((t) => t.id).join(', ')}, or a font file (archivo-black)`,
  },
  { name: 'text-height', value: 'LENGTH', help: 'height of a capital (a tenth of the deck’s width)' },
  { name: 'tracking', value: 'LENGTH', help: 'more room after each letter (0mm)' },
  { name: 'align', value: 'left|centre|right', help: 'how lines stand to each other (centre)' },
  {
    name: 'arc',
    value: 'LENGTH',
    help: 'radius of an arch to set the words on; negative hangs (0: straight)',
  },
  { name: 'text-colour', value: "'#hex'", help: 'colour of the words (the face’s darkest ink)' },
];

/** ms in which any font and its words are drawn, or are not worth waiting for. */
const MOST_MS = 8_000;

/** The chosen font's files, its name for the job, and its file where it is not one of ours. */
async function fontGiven(context: Context, wanted: string) {
  const face = TYPEFACES.find((t) => t.id === wanted.toLowerCase());
  if (face) {
    const fonts = await typefaceFiles(context.files, fontDir(), face);
    return fonts.ok ? done({ fonts: fonts.value, font: face.id, own: null }) : fonts;
  }
  if (!/\.(ttf|otf|ttc|woff2?)$/i.test(wanted))
    return unknown(
      'font',
      wanted,
      TYPEFACES.map((t) => t.id),
      'A font file ends in .ttf, .otf, .woff or .woff2.',
    );
  const bytes = await context.files.read(wanted, MOST_FONT_BYTES);
  if (!bytes.ok) return bytes;
  const hash = hashOf(bytes.value);
  return done({
    fonts: [{ name: basename(wanted), bytes: bytes.value }],
    font: `own-${hash}`,
    own: { path: `fonts/${hash}`, bytes: bytes.value },
  });
}

/** Sets the words on a thread of its own, which is ended when a font keeps it too long. */
export async function setAside(
  context: Pick<Context, 'workers'>,
  input: WordsInput,
): Promise<Outcome<SetText & { readonly family: string }>> {
  const abort = { aborted: false };
  const timer = setTimeout(() => {
    abort.aborted = true;
  }, MOST_MS);
  try {
    return await context
      .workers()
      .run<WordsInput, Outcome<SetText & { family: string }>>('setWords', input, abort);
  } catch (error) {
    if (!abort.aborted) throw error;
    return textTrouble.fontTooSlow();
  } finally {
    clearTimeout(timer);
  }
}

export interface TextGiven {
  readonly job: Job;
  readonly hash: string;
  readonly bytes: Uint8Array;
  /** The words at a modest size, for finding their colour. */
  readonly look: Picture;
  /** The font's own file, by its path in the job file. */
  readonly extra: ReadonlyMap<string, Uint8Array>;
}

/** The job with the words that `--text` gives on its face; null where none are given. */
export async function textGiven(
  context: Context,
  given: Given,
  job: Job,
  face: Face,
): Promise<Outcome<TextGiven | null>> {
  const words = given.text('text');
  if (words === undefined) {
    const stray = TEXT_OPTIONS.slice(1).find(({ name }) => given.text(name) !== undefined);
    return stray ? optionTrouble.withoutText(stray.name) : done(null);
  }
  const height = lengthOf(given, 'text-height', { least: 0.5, most: 1000 });
  if (!height.ok) return height;
  const tracking = lengthOf(given, 'tracking', { least: -200, most: 200 });
  if (!tracking.ok) return tracking;
  const arc = lengthOf(given, 'arc', { least: -5000, most: 5000 });
  if (!arc.ok) return arc;
  const align = choiceOf(given, 'align', ['left', 'centre', 'right'] as const);
  if (!align.ok) return align;
  const hex = given.text('text-colour')?.toLowerCase();
  if (hex !== undefined && !/^#[0-9a-f]{6}$/.test(hex)) return optionTrouble.notTextColour(hex.slice(0, 40));
  const font = await fontGiven(context, given.text('font') ?? 'archivo-black');
  if (!font.ok) return font;
  const usual = usualText(job, face, words.replaceAll('\\n', '\n'));
  const asked: TextData = {
    ...usual,
    font: font.value.font,
    cap: height.value ?? usual.cap,
    tracking: tracking.value ?? 0,
    align: align.value ?? usual.align,
    arc: arc.value ?? 0,
    hex: hex ?? usual.hex,
  };
  const set = await setAside(context, { fonts: font.value.fonts, setting: asked });
  if (!set.ok) return set;
  const placed = placeText(job, face, { ...asked, fontName: set.value.family.slice(0, 200) }, set.value);
  const probe = await context.codec.probe(placed.bytes, placed.piece.name);
  if (!probe.ok) return probe;
  const look = await lookAt(context, placed.bytes, placed.piece.name, probe.value, 800);
  if (!look.ok) return look;
  const { own } = font.value;
  return done({
    job: placed.job,
    hash: placed.piece.hash,
    bytes: placed.bytes,
    look: look.value,
    extra: new Map(own ? [[own.path, own.bytes]] : []),
  });
}
