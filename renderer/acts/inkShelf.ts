import { writeGpl } from '../../core/colour/index.ts';
import {
  readPaletteInks,
  type ShelfInk,
  shelfOf,
  withoutShelfInk,
  withShelfInks,
} from '../../core/shop/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { shell } from './shell.ts';
import { changeShop } from './shop.ts';

/** Puts inks on the shop's shelf. */
export function putOnShelf(inks: readonly ShelfInk[], said?: string): Promise<void> {
  const would = withShelfInks(useStudio.getState().shop, inks);
  if (!would.ok) {
    tell('trouble', would.reason, would.mend);
    return Promise.resolve();
  }
  return changeShop((shop) => {
    const next = withShelfInks(shop, inks);
    return next.ok ? next.value : shop;
  }, said);
}

export const takeOffShelf = (hex: string): Promise<void> => changeShop((shop) => withoutShelfInk(shop, hex));

/** Puts the inks of a palette file on the shelf. */
export async function paletteToShelf(name: string, text: string): Promise<void> {
  const read = readPaletteInks(text);
  if (!read.ok) tell('trouble', `“${name}”: ${read.reason}`, read.mend);
  else await putOnShelf(read.value, `${read.value.length} inks of “${name}” are on the shelf.`);
}

/** Writes the shelf as GIMP palette text where the user says. */
export async function shelfToPalette(): Promise<void> {
  const inks = shelfOf(useStudio.getState().shop);
  const written = await shell().saveText(writeGpl('Ink shelf', inks), 'ink-shelf.gpl');
  if (!written.ok && written.kind !== 'cancelled') tell('trouble', written.reason, written.mend);
}
