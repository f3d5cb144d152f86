import { parsePalette } from '../colour/index.ts';
import type { Ink } from '../job/index.ts';
import { shopTrouble } from '../sentences/index.ts';
import type { Outcome } from '../units/index.ts';
import type { Shop } from './shop.ts';
import { type ShopInk, sameName } from './shopInk.ts';

/** An ink of the shop whose colour is known: what art can be split into. */
export type ShelfInk = ShopInk & { readonly hex: string };

/** As many as the shop keeps. */
const MOST = 500;

/** The shop's inks of known colour, the ones kept last first. */
export const shelfOf = (shop: Shop): ShelfInk[] =>
  shop.inks.filter((ink): ink is ShelfInk => ink.hex !== undefined);

/** What the shelf keeps of a job's ink. */
export const shelfInk = ({ name, hex, opacity, kind, meshPerCm, measured }: Ink): ShelfInk => ({
  name,
  hex,
  opacity,
  kind,
  meshPerCm,
  ...(measured ? { measured } : {}),
});

/** A name that no ink of the list has: the name itself, or with a number. */
function freeName(name: string, inks: readonly ShopInk[]): string {
  const taken = (text: string) => inks.some((ink) => sameName(ink.name, text));
  if (!taken(name)) return name;
  for (let n = 2; ; n++) if (!taken(`${name} ${n}`)) return `${name} ${n}`;
}

/**
 * The shop with more inks on its shelf. One of the same colour is told anew and keeps what only the shop knew of it (price, a
 * measurement); one of the same name in another colour gets a number: nothing is lost.
 */
export function withShelfInks(shop: Shop, more: readonly ShelfInk[]): Outcome<Shop> {
  const inks = [...shop.inks];
  for (const ink of more) {
    const same = inks.findIndex((known) => known.hex === ink.hex);
    const bare = inks.findIndex((known) => known.hex === undefined && sameName(known.name, ink.name));
    const at = same >= 0 ? same : bare;
    if (at < 0) inks.push({ ...ink, name: freeName(ink.name, inks) });
    else {
      const others = inks.filter((_, i) => i !== at);
      inks[at] = { ...inks[at], ...ink, name: freeName(ink.name, others) };
    }
  }
  if (inks.length > MOST) return shopTrouble.shelfFull(MOST, inks.length);
  return { ok: true, value: { ...shop, inks } };
}

/** The shop without the inks of one colour on its shelf. */
export const withoutShelfInk = (shop: Shop, hex: string): Shop => ({
  ...shop,
  inks: shop.inks.filter((ink) => ink.hex !== hex),
});

/** Inks from a palette: GIMP palette text or JSON. A colour that occurs twice is taken once. */
export function readPaletteInks(text: string): Outcome<ShelfInk[]> {
  const palette = parsePalette(text);
  if (!palette.ok) return palette;
  const inks = palette.value.filter(({ hex }, i, all) => all.findIndex((c) => c.hex === hex) === i);
  if (inks.length > MOST) return shopTrouble.paletteTooLong(inks.length, MOST);
  return { ok: true, value: inks.map(({ name, hex }) => ({ name, hex })) };
}
