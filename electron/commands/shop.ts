import type { Printer } from '../../core/job/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { EMPTY_SHOP, isEmptyShop, keepForShop, readShop, type Shop } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { shopFile, stateDir } from '../host/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { sayJson, type Voice } from './say.ts';

export const spec: CommandSpec = {
  name: 'shop',
  takes: ['[JOB]'],
  does: 'shows what your shop has and how it works; with a job, keeps that job’s figures for the next ones',
  options: [
    {
      name: 'read',
      value: 'FILE',
      help: 'takes the figures from a JSON file, as --json prints them, in place of those kept',
    },
    { name: 'json', help: 'prints all of it as JSON' },
  ],
  more: [
    'A new job begins with the first printer, frame, lamp and emulsion, all meshes, and your times and prices.',
    'A job holds its own copy of what it uses: changing the shop changes no job. kickflat press JOB --shop fills what a job leaves open.',
  ],
  examples: ['kickflat shop out/night-heron.kickflat'],
};

/** Bytes of a shop's file; the largest sensible one is far smaller. */
const MOST_BYTES = 4 * 1024 * 1024;

/** What was measured of a printer, if anything was. */
function measuredWords({ scaleX, scaleY, skewDeg = 0 }: Printer): string {
  if (scaleX === 1 && scaleY === 1 && skewDeg === 0) return '';
  const percent = (share: number) => `${(share * 100).toFixed(2)} %`;
  return `, prints ${percent(scaleX)} by ${percent(scaleY)}, leaning ${skewDeg.toFixed(2)}°`;
}

/** One line a thing, the first of each list being what a new job starts with. */
function sayShop(voice: Voice, shop: Shop): void {
  if (isEmptyShop(shop)) {
    voice.out('Your shop keeps no figures yet. kickflat shop JOB keeps a job’s.\n');
    return;
  }
  const line = (kind: string, text: string) => voice.out(`${kind.padEnd(9)} ${text}\n`);
  const some = (value: number | undefined, unit: string) => (value === undefined ? '' : `, ${value} ${unit}`);
  for (const p of shop.printers) line('printer', `${p.name}, ${p.sheet}, ${p.dpi} dpi${measuredWords(p)}`);
  for (const f of shop.frames)
    line(
      'frame',
      `${f.name}: ${f.length} × ${f.width} mm inside${some(f.bar, 'mm bar')}${some(f.count, 'of them')}`,
    );
  for (const l of shop.lamps)
    line('lamp', `${l.name}${some(l.distance, 'mm to the glass')}${some(l.time, 's')}`);
  for (const e of shop.emulsions)
    line('emulsion', `${e.name}${some(e.coats, 'coats a side')}${some(e.wetUm, 'µm wet')}`);
  for (const m of shop.meshes) line('mesh', `${m.countPerCm}-${m.threadUm}`);
  for (const i of shop.inks)
    line('ink', `${i.name}${some(i.potMl, 'ml a pot')}${some(i.price, 'a pot')}${some(i.density, 'g/ml')}`);
  const habits = Object.keys(shop.habits).filter((key) => shop.habits[key] !== undefined);
  if (habits.length > 0) line('run', `your own ${habits.join(', ')}`);
}

async function given(text: string, context: Parameters<Command>[1]): Promise<Outcome<Shop>> {
  const bytes = await context.files.read(text, MOST_BYTES);
  if (!bytes.ok) return bytes;
  try {
    return readShop(JSON.parse(new TextDecoder().decode(bytes.value)));
  } catch {
    return optionTrouble.shopNotJson(text);
  }
}

export const run: Command = async (asked, context): Promise<Outcome<0>> => {
  const store = shopFile(stateDir());
  const [path] = asked.words;
  const from = asked.text('read');
  if (from !== undefined && path !== undefined) return optionTrouble.shopTwice();
  const known = from === undefined ? await store.read() : await given(from, context);
  // Keeping a job's figures mends a damaged file, which is laid aside.
  const mendable = path !== undefined && !known.ok && known.kind === 'input';
  if (!known.ok && !mendable) return known;
  let shop = known.ok ? known.value : EMPTY_SHOP;
  if (path !== undefined) {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    shop = keepForShop(shop, file.value.job);
  }
  if (path !== undefined || from !== undefined) {
    const kept = await store.keep(shop);
    if (!kept.ok) return kept;
  }
  if (asked.flag('json')) sayJson(context.voice, shop);
  else sayShop(context.voice, shop);
  return done(0);
};
