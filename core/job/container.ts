import { strFromU8, strToU8, type Zippable, zipSync } from 'fflate';
import { jobTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { readJob } from './read.ts';
import type { Job } from './schema.ts';
import { plainUnpacking, type Unpacking } from './unpacking.ts';
import { type ZipEntry, zipEntries } from './zipEntries.ts';

/**
 * A `.kickflat` file: a zip (PKWARE APPNOTE) with `job.json` first and each piece of untouched original art at
 * `art/<sha-256>`. The same job gives the same bytes: entries in a fixed order, a fixed date, keys sorted.
 */
export interface JobFile {
  readonly job: Job;
  /** Original bytes by SHA-256. */
  readonly art: ReadonlyMap<string, Uint8Array>;
  /** Entries a later version may have added; carried through untouched. */
  readonly extra: ReadonlyMap<string, Uint8Array>;
}

/** The zip format's own earliest date: a job holds no clock. */
const FIXED_DATE = '1980-01-01T00:00:00';
/** Bytes a document may have; the largest sensible one (200 pieces of art, a 20000-point outline) is under 2 MB. */
const MAX_DOCUMENT = 16 * 1024 * 1024;
/** Bytes of all art together, unpacked. */
const MAX_UNPACKED = 768 * 1024 * 1024;
const MAX_ENTRIES = 2000;

/** JSON with every object's keys sorted, so that two equal jobs are written alike. */
export function canonicalJson(value: unknown): string {
  const sorted = (v: unknown): unknown => {
    if (Array.isArray(v)) return v.map(sorted);
    if (v !== null && typeof v === 'object') {
      const from = v as Record<string, unknown>;
      const to: Record<string, unknown> = {};
      for (const key of Object.keys(from).sort()) to[key] = sorted(from[key]);
      return to;
    }
    return v;
  };
  return `${JSON.stringify(sorted(value), null, 1)}\n`;
}

/** Font files of one's own lie in the job file as `fonts/` and their hash; see `TextSchema`. */
const FONTS = 'fonts/';
const OWN_FONT = 'own-';

/** The file's bytes. Art that no piece of the job uses, and fonts that no words are set in, are left out. */
export function packJob(file: {
  readonly job: Job;
  readonly art: ReadonlyMap<string, Uint8Array>;
  readonly extra?: ReadonlyMap<string, Uint8Array>;
}): Uint8Array {
  const used = new Map<string, string>();
  const fonts = new Set<string>();
  for (const face of [file.job.faces.bottom, file.job.faces.top])
    for (const piece of face.art) {
      used.set(piece.hash, piece.mediaType);
      if (piece.text?.font.startsWith(OWN_FONT)) fonts.add(FONTS + piece.text.font.slice(OWN_FONT.length));
    }
  const entries: Zippable = {
    'job.json': [strToU8(canonicalJson(file.job)), { mtime: FIXED_DATE, level: 6 }],
  };
  for (const hash of [...used.keys()].sort()) {
    const bytes = file.art.get(hash);
    if (!bytes) throw new Error(`Art ${hash} is placed in the job but its bytes were not handed over.`);
    // Pictures are compressed already; only SVG text gains.
    entries[`art/${hash}`] = [
      bytes,
      { mtime: FIXED_DATE, level: used.get(hash) === 'image/svg+xml' ? 6 : 0 },
    ];
  }
  for (const name of [...(file.extra?.keys() ?? [])].sort())
    if (!name.startsWith(FONTS) || fonts.has(name))
      entries[name] = [file.extra?.get(name) as Uint8Array, { mtime: FIXED_DATE, level: 6 }];
  return zipSync(entries);
}

const damaged = (what: string) => jobTrouble.damagedFile(what);

/** The entries of a job file, once it is known that there are not too many and that they are not too large; or what is wrong. */
function boundedEntries(bytes: Uint8Array): ZipEntry[] | string {
  const entries: ZipEntry[] = [];
  let unpacked = 0;
  let count = 0;
  for (const entry of zipEntries(bytes)) {
    unpacked += entry.size;
    if (++count > MAX_ENTRIES) return `it holds more than ${MAX_ENTRIES} entries`;
    if (entry.name === 'job.json' && entry.size > MAX_DOCUMENT)
      return `its document would unpack to ${Math.round(entry.size / 1048576)} MB`;
    if (unpacked > MAX_UNPACKED) return `it would unpack to more than ${MAX_UNPACKED / 1048576} MB`;
    if (!entry.name.endsWith('/')) entries.push(entry);
  }
  return entries;
}

/** Reads a job file; nothing in it is trusted: sizes are limited before unpacking and art is checked by its hash. */
export function unpackJob(bytes: Uint8Array, by: Unpacking = plainUnpacking): Outcome<JobFile> {
  if (bytes.length === 0) return damaged('it is empty');
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) return jobTrouble.notZip();
  const files = new Map<string, Uint8Array>();
  try {
    const entries = boundedEntries(bytes);
    if (typeof entries === 'string') return damaged(entries);
    for (const { name, packed, deflated, size } of entries)
      files.set(name, deflated ? by.inflate(packed, size) : packed.slice());
  } catch {
    return damaged('its end or a part of it is missing');
  }
  const document = files.get('job.json');
  if (!document) return jobTrouble.noDocument();
  let raw: unknown;
  try {
    raw = JSON.parse(strFromU8(document));
  } catch {
    return damaged('its document can not be read as JSON');
  }
  const read = readJob(raw);
  if (!read.ok) return read;
  const art = new Map<string, Uint8Array>();
  const extra = new Map<string, Uint8Array>();
  for (const [name, data] of files) {
    if (name === 'job.json') continue;
    const hash = /^art\/([0-9a-f]{64})$/.exec(name)?.[1];
    if (!hash) {
      extra.set(name, data);
      continue;
    }
    if (by.hashOf(data) !== hash)
      return damaged(`the art stored as ${hash.slice(0, 12)}… does not match its check sum`);
    art.set(hash, data);
  }
  for (const face of [read.value.faces.bottom, read.value.faces.top])
    for (const piece of face.art)
      if (!art.has(piece.hash)) return damaged(`the art “${piece.name}” is missing from it`);
  return done({ job: read.value, art, extra });
}
