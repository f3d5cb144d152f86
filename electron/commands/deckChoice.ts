import {
  checkDeck,
  type Deck,
  DeckSchema,
  deckTemplate,
  deckWithOutline,
  importOutlineDxf,
  importOutlineSvg,
  TEMPLATES,
} from '../../core/deck/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, issueText, type Outcome } from '../../core/units/index.ts';
import type { Context } from './context.ts';
import { unknown } from './options.ts';

export const DEFAULT_DECK = 'popsicle-8.25';
/** Most bytes an outline or a deck file may have. */
const MOST_BYTES = 8 * 1024 * 1024;

function deckFromJson(text: string, path: string): Outcome<Deck> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return optionTrouble.deckNotJson(path);
  }
  const parsed = DeckSchema.safeParse(raw);
  if (parsed.success) return checkDeck(parsed.data);
  return optionTrouble.deckNotWhole(path, issueText(parsed.error.issues[0], 'the deck'));
}

/** A template's name, an SVG or DXF outline, or a JSON file with the deck's full measurements. */
export async function chooseDeck(context: Context, wanted: string | undefined): Promise<Outcome<Deck>> {
  const name = wanted ?? DEFAULT_DECK;
  const template = deckTemplate(name);
  if (template) return done(template);
  const kind = /\.(svg|dxf|json)$/i.exec(name)?.[1]?.toLowerCase();
  if (!kind)
    return unknown(
      'deck',
      name,
      TEMPLATES.map((t) => t.name),
      'A deck may also be an outline (.svg, .dxf) or full measurements (.json).',
    );
  const bytes = await context.files.read(name, MOST_BYTES);
  if (!bytes.ok) return bytes;
  const text = new TextDecoder().decode(bytes.value);
  if (kind === 'json') return deckFromJson(text, name);
  const outline = (kind === 'dxf' ? importOutlineDxf : importOutlineSvg)(text, { source: name });
  if (!outline.ok) return outline;
  const base = deckTemplate(DEFAULT_DECK);
  if (!base) throw new Error(`The template ${DEFAULT_DECK} is missing.`);
  return checkDeck(deckWithOutline({ ...base, name }, outline.value));
}
