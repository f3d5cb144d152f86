import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import type { Kind } from './goodInputs.ts';
import { mutateBytes, withPngSums } from './mutateBytes.ts';
import { type Bait, mutateText } from './mutateText.ts';
import type { Chance } from './random.ts';
import { sfntOfWoff, woffOfSfnt } from './sfnt.ts';

const TEXTS: ReadonlySet<Kind> = new Set([
  'svg',
  'outline svg',
  'dxf',
  'gpl palette',
  'json palette',
  'deck json',
]);

const ENTRY_NAMES = [
  '../../climbed.json',
  '/climbed.json',
  'C:\\climbed.json',
  'art/../climbed',
  `art/${'0'.repeat(64)}`,
  'job.json/inside',
  '__proto__',
  'a'.repeat(5000),
  'nul\u0000name',
];

/** A job's document or names changed and zipped again, so that the change gets past the archive's own check sums. */
function mutateJob(good: Uint8Array, random: Chance, bait: Bait): Uint8Array {
  const files: Zippable = { ...unzipSync(good) };
  const document = files['job.json'] as Uint8Array;
  const way = random.int(4);
  if (way < 3) files['job.json'] = mutateText(document, 'deck json', random, bait);
  else if (random.int(2) === 0) files[random.pick(ENTRY_NAMES)] = strToU8('climbed');
  else {
    const other = random.pick(Object.keys(files));
    files[other] = mutateBytes(files[other] as Uint8Array, document, random);
  }
  return zipSync(files, { mtime: '1980-01-01T00:00:00' });
}

/** About one table in six is changed. */
const mutateTable = (table: Uint8Array, random: Chance): Uint8Array =>
  random.int(6) === 0 ? mutateBytes(table, table, random) : table;

/**
 * One bad input from a good one: a few changes of its bytes or its words. `other` is another good input whose parts may be
 * mixed in.
 */
export function mutate(
  kind: Kind,
  good: Uint8Array,
  other: Uint8Array,
  random: Chance,
  bait: Bait,
): Uint8Array {
  const inWords = random.int(4) > 0;
  if (TEXTS.has(kind) && inWords) return mutateText(good, kind, random, bait);
  if (kind === 'job' && inWords) return mutateJob(good, random, bait);
  // A packed font whose tables are changed before they are packed: the reader sees more than a broken package.
  if (kind === 'woff' && inWords) return woffOfSfnt(sfntOfWoff(good), (table) => mutateTable(table, random));
  const bytes = mutateBytes(good, other, random);
  // Half of the pictures get their check sums right again: else the reader stops there and sees nothing more.
  return kind === 'png' && random.int(2) === 0 ? withPngSums(bytes) : bytes;
}

/** What a file says, for a report. */
export const startOf = (bytes: Uint8Array): string =>
  strFromU8(bytes.subarray(0, 60), true).replace(/[^\x20-\x7e]/g, '.');
