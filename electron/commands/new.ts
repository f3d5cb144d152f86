import { stat } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { newJob, packJob, type Veneer } from '../../core/job/index.ts';
import { diskTrouble } from '../../core/sentences/index.ts';
import { fillFromShop, startInShop } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { shopFile, stateDir } from '../host/index.ts';
import { ART_OPTIONS, placeGiven } from './artOptions.ts';
import type { Command } from './context.ts';
import { chooseDeck } from './deckChoice.ts';
import { sayMade } from './made.ts';
import type { CommandSpec } from './options.ts';
import { veneerFrom } from './veneerChoice.ts';

export const spec: CommandSpec = {
  name: 'new',
  takes: [],
  does: 'makes a job from art, with your shop’s own figures where you keep some (kickflat shop)',
  options: [
    ...ART_OPTIONS,
    {
      name: 'deck',
      value: 'TEMPLATE|FILE',
      help: 'a deck template, an SVG outline or a JSON file of measurements',
    },
    { name: 'veneer', value: "NAME|'#hex'", help: 'the wood it is printed on (natural maple)' },
    { name: 'out', value: 'JOB', help: 'the job file to make' },
    { name: 'json', help: 'prints what was made as JSON' },
  ],
  examples: [
    'kickflat new --art build/demo/night-heron.svg --inks 5 --deck popsicle-8.25 --out heron.kickflat',
  ],
};

const jobName = (path: string) => basename(path, extname(path)).slice(0, 200) || 'Job';

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const deck = await chooseDeck(context, given.text('deck'));
  if (!deck.ok) return deck;
  let veneers: Veneer[] | null = null;
  const wanted = given.text('veneer');
  if (wanted !== undefined) {
    const veneer = veneerFrom(wanted, []);
    if (!veneer.ok) return veneer;
    veneers = [veneer.value];
  }
  const first = given.texts('art')[0];
  const asked = given.text('out') ?? `${first === undefined ? 'job' : jobName(first)}.kickflat`;
  const out = extname(asked) === '' ? `${asked}.kickflat` : asked;
  // A job is months of evenings: `new` never takes the place of one.
  if (await stat(out).catch(() => null)) return diskTrouble.alreadyThere(out);
  const shop = await shopFile(stateDir()).read();
  if (!shop.ok) return shop;
  const blank = newJob({ name: jobName(first ?? out), deck: deck.value });
  const start = startInShop(blank, shop.value);
  const placed = await placeGiven(context, given, veneers ? { ...start, veneers } : start, 'bottom');
  if (!placed.ok) return placed;
  // Once more for the inks, which are only known now.
  const job = fillFromShop(placed.value.job, shop.value);
  const written = await context.files.write(out, packJob({ ...placed.value, job }));
  if (!written.ok) return written;
  sayMade(context.voice, given.flag('json'), out, placed.value);
  return done(0);
};
