import { writeGpl, writePaletteJson } from '../../core/colour/index.ts';
import { optionTrouble, shopTrouble } from '../../core/sentences/index.ts';
import {
  readPaletteInks,
  type ShelfInk,
  type Shop,
  shelfInk,
  shelfOf,
  withoutShelfInk,
  withShelfInks,
} from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { shopFile, stateDir } from '../host/index.ts';
import type { Command, Context } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, type Given, unknown } from './options.ts';
import { sayJson } from './say.ts';

const MOST_PALETTE_BYTES = 1024 * 1024;

export const spec: CommandSpec = {
  name: 'shelf',
  takes: [],
  does: 'lists the inks you own, which suggested inks can be snapped to; takes and gives palettes',
  options: [
    { name: 'add', value: 'FILE…', many: true, help: 'inks of palettes (.gpl, .json) or jobs (.kickflat)' },
    { name: 'remove', value: "NAME|'#hex'", many: true, help: 'inks to take off the shelf' },
    { name: 'out', value: 'FILE', help: 'writes the shelf as a palette, .gpl or .json' },
    { name: 'json', help: 'prints the shelf as JSON' },
  ],
  examples: ['kickflat shelf --add out/night-heron.kickflat --out inks.gpl'],
};

/** The inks of a file the user named. */
async function inksOf(context: Context, path: string): Promise<Outcome<ShelfInk[]>> {
  if (/\.kickflat$/i.test(path)) {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    const { bottom, top } = file.value.job.faces;
    return done([...bottom.inks, ...top.inks].map(shelfInk));
  }
  if (!/\.(gpl|json)$/i.test(path)) return optionTrouble.notPaletteOrJob(path);
  const bytes = await context.files.read(path, MOST_PALETTE_BYTES);
  if (!bytes.ok) return bytes;
  const read = readPaletteInks(new TextDecoder().decode(bytes.value));
  return read.ok ? read : { ...read, reason: `“${path}”: ${read.reason}` };
}

/** The shop after what was asked to be put on its shelf and taken off. */
async function changed(context: Context, given: Given, shop: Shop): Promise<Outcome<Shop>> {
  let next = shop;
  for (const path of given.texts('add')) {
    const more = await inksOf(context, path);
    if (!more.ok) return more;
    const added = withShelfInks(next, more.value);
    if (!added.ok) return added;
    next = added.value;
  }
  for (const wanted of given.texts('remove')) {
    const shelf = shelfOf(next);
    const ink = shelf.find(({ name, hex }) =>
      [name, hex].some((text) => text.toLowerCase() === wanted.toLowerCase()),
    );
    if (!ink)
      return unknown(
        'ink',
        wanted,
        shelf.map(({ name }) => name),
        '',
      );
    next = withoutShelfInk(next, ink.hex);
  }
  return done(next);
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const out = given.text('out');
  if (out !== undefined && !/\.(gpl|json)$/i.test(out)) return optionTrouble.paletteEnding(out);
  const store = shopFile(stateDir());
  const known = await store.read();
  if (!known.ok) return known;
  const shop = await changed(context, given, known.value);
  if (!shop.ok) return shop;
  const shelf = shelfOf(shop.value);
  if (out !== undefined && shelf.length === 0) return shopTrouble.shelfEmpty();
  if (shop.value !== known.value) {
    const kept = await store.keep(shop.value);
    if (!kept.ok) return kept;
  }
  if (out !== undefined) {
    const write = /\.gpl$/i.test(out) ? writeGpl : writePaletteJson;
    const written = await context.files.write(out, new TextEncoder().encode(write('Ink shelf', shelf)));
    if (!written.ok) return written;
  }
  if (given.flag('json')) sayJson(context.voice, { inks: shelf, ...(out ? { file: out } : {}) });
  else {
    for (const { hex, name } of shelf) context.voice.out(`${hex}  ${name}\n`);
    const n = shelf.length;
    context.voice.out(n === 0 ? 'The shelf is empty.\n' : `${n} ${n === 1 ? 'ink' : 'inks'}\n`);
    if (out !== undefined) context.voice.out(`Written to ${out}.\n`);
  }
  return done(0);
};
