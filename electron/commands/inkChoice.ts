import { labOfHex, parsePalette } from '../../core/colour/index.ts';
import { type Ink, inkFrom, inkTaken, type TakenInk } from '../../core/job/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { suggestInks } from '../../core/separate/index.ts';
import { type ShelfInk, shelfOf } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { shopFile, stateDir } from '../host/index.ts';
import type { Context } from './context.ts';

/** Inks a face may have; a hand press with more screens than this is not run. */
export const MOST_INKS = 24;
const MOST_PALETTE_BYTES = 1024 * 1024;

interface Colour {
  readonly name: string;
  readonly hex: string;
}

/** `#hex=name,#hex=name`: the names may be left out. */
function colourList(text: string): Outcome<Colour[]> {
  const colours: Colour[] = [];
  for (const part of text.split(',')) {
    const match = /^\s*(#[0-9a-f]{3}(?:[0-9a-f]{3})?)\s*(?:=\s*(.{1,120}?)\s*)?$/i.exec(part);
    if (!match) return optionTrouble.notInk(part.trim().slice(0, 60));
    const short = (match[1] as string).toLowerCase();
    const hex = short.length === 4 ? `#${[...short.slice(1)].map((c) => c + c).join('')}` : short;
    const again = colours.find((c) => c.hex === hex);
    if (again) return optionTrouble.inkTwice(hex);
    colours.push({ hex, name: match[2] ?? hex });
  }
  return done(colours);
}

/** The user's ink shelf, which must hold something to be snapped to. */
export async function ownInks(): Promise<Outcome<ShelfInk[]>> {
  const shop = await shopFile(stateDir()).read();
  if (!shop.ok) return shop;
  const shelf = shelfOf(shop.value);
  if (shelf.length > 0) return done(shelf);
  return optionTrouble.emptyShelfChosen();
}

/** A face's inks in pull order, as `--inks` asks: counted and found in the art, listed, or read from a palette file. */
export async function chooseInks(
  context: Context,
  wanted: string | undefined,
  art: Picture,
  ground: string | null,
  fromShelf = false,
): Promise<Outcome<Ink[]>> {
  let colours: readonly TakenInk[];
  if (wanted === undefined || /^\d+$/.test(wanted)) {
    const count = wanted === undefined ? null : Number(wanted);
    if (count !== null && (count < 1 || count > MOST_INKS)) return optionTrouble.inkCount(MOST_INKS, count);
    const shelf = fromShelf ? await ownInks() : done([]);
    if (!shelf.ok) return shelf;
    colours = suggestInks(art, count, { ground, shelf: shelf.value }).map((found) => ({
      ...shelf.value.find((ink) => ink.hex === found.hex),
      name: found.name,
      hex: found.hex,
    }));
    if (colours.length === 0) return optionTrouble.noColours();
  } else if (/\.(json|gpl)$/i.test(wanted)) {
    const bytes = await context.files.read(wanted, MOST_PALETTE_BYTES);
    if (!bytes.ok) return bytes;
    const palette = parsePalette(new TextDecoder().decode(bytes.value));
    if (!palette.ok) return { ...palette, reason: `“${wanted}”: ${palette.reason}` };
    colours = palette.value;
  } else {
    const list = colourList(wanted);
    if (!list.ok) return list;
    colours = list.value;
  }
  if (colours.length > MOST_INKS) return optionTrouble.tooManyInks(colours.length, MOST_INKS);
  const inks: Ink[] = [];
  for (const colour of colours) inks.push(inkTaken({ ...colour, hex: colour.hex.toLowerCase() }, inks));
  return done(inks);
}

/** CIE L* below which an ink hides wood by itself, and above which a near-white ink can serve as base (common practice). */
const DARK_ENOUGH = 35;
const WHITE_ENOUGH = 92;

/**
 * The inks with a base as the first pull: the whitest one where there is a white, else a new one. Every ink but the dark
 * ones asks for it on every veneer.
 */
export function withBase(inks: readonly Ink[]): Ink[] {
  const white = inks.find((ink) => {
    const { l, a, b } = labOfHex(ink.hex);
    return l >= WHITE_ENOUGH && Math.hypot(a, b) < 12;
  });
  const base: Ink = white
    ? { ...white, role: 'base', needsBase: [] }
    : inkFrom({ name: 'Base white', hex: '#ffffff', role: 'base' }, inks);
  const rest = inks.filter((ink) => ink !== white);
  return [
    base,
    ...rest.map((ink) => (labOfHex(ink.hex).l >= DARK_ENOUGH ? { ...ink, needsBase: 'all' as const } : ink)),
  ];
}
