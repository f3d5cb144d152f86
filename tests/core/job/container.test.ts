import { createHash } from 'node:crypto';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { hashOf, inkFrom, type Job, newJob, packJob, placeArt, unpackJob } from '../../../core/job/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');
const bytes = strToU8('<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm"/>');
const facts = {
  name: 'crest.svg',
  hash: hashOf(bytes),
  mediaType: 'image/svg+xml' as const,
  widthPx: 100,
  heightPx: 50,
  stated: { width: 100, height: 50 },
  ground: null,
};

function sample(): { job: Job; art: Map<string, Uint8Array> } {
  const start = newJob({ name: 'Night Heron', deck: deck as NonNullable<typeof deck> });
  const placed = placeArt(start, 'bottom', facts, { fit: 'actual', wrap: 'surface', artDpi: null });
  if (!placed.ok) throw new Error(placed.reason);
  const { job } = placed.value;
  const key = inkFrom({ name: 'Night blue', hex: '#1b2440' }, []);
  const faces = { ...job.faces, bottom: { ...job.faces.bottom, inks: [key] } };
  return { job: { ...job, faces }, art: new Map([[facts.hash, bytes]]) };
}

test('a job and its art come back as they went', () => {
  const file = sample();
  const back = unpackJob(packJob(file));
  expect(back.ok && back.value.job).toEqual(file.job);
  expect(back.ok && back.value.art.get(facts.hash)).toEqual(bytes);
});

test('the same job gives the same bytes, whatever the order of its keys', () => {
  const { job, art } = sample();
  const turned = Object.fromEntries(Object.entries(job).reverse()) as unknown as Job;
  expect(packJob({ job: turned, art })).toEqual(packJob({ job, art }));
});

test('the hash is SHA-256 as FIPS 180-4 has it, by the platform’s own', () => {
  expect(hashOf(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
  // FIPS 180-4 example: "abc".
  expect(hashOf(strToU8('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});

test('a font of one’s own is kept for as long as words are set in it, and no longer', () => {
  const { job, art } = sample();
  const name = `fonts/${'a'.repeat(64)}`;
  const extra = new Map([
    [name, bytes],
    ['notes/evening.txt', bytes],
  ]);
  const text = {
    words: 'Heron',
    font: `own-${'a'.repeat(64)}`,
    fontName: 'Hand',
    cap: 20,
    tracking: 0,
    leading: 1.5,
    align: 'left' as const,
    arc: 0,
    hex: '#1b2440',
  };
  const { bottom } = job.faces;
  const withWords = {
    ...job,
    faces: { ...job.faces, bottom: { ...bottom, art: bottom.art.map((piece) => ({ ...piece, text })) } },
  };
  const names = (of: Job) => {
    const back = unpackJob(packJob({ job: of, art, extra }));
    return back.ok ? [...back.value.extra.keys()].sort() : [];
  };
  expect(names(withWords)).toEqual([name, 'notes/evening.txt']);
  expect(names(job)).toEqual(['notes/evening.txt']);
});

/** The packed job with its document changed. */
function rewritten(
  change: (doc: Record<string, unknown>) => unknown,
  extra: Record<string, Uint8Array> = {},
) {
  const files = unzipSync(packJob(sample()));
  const doc = JSON.parse(strFromU8(files['job.json'] as Uint8Array));
  files['job.json'] = strToU8(JSON.stringify(change(doc)));
  return zipSync({ ...files, ...extra });
}

test('keys and entries of a later version survive a round trip', () => {
  const opened = unpackJob(
    rewritten((doc) => ({ ...doc, weather: 'damp', deck: { ...(doc['deck'] as object), grip: 'coarse' } }), {
      'later/thing.bin': new Uint8Array([1, 2, 3]),
    }),
  );
  if (!opened.ok) throw new Error(opened.reason);
  const again = unpackJob(packJob(opened.value));
  if (!again.ok) throw new Error(again.reason);
  expect((again.value.job as Record<string, unknown>)['weather']).toBe('damp');
  expect((again.value.job.deck as Record<string, unknown>)['grip']).toBe('coarse');
  expect(again.value.extra.get('later/thing.bin')).toEqual(new Uint8Array([1, 2, 3]));
});

test('a newer version is refused politely', () => {
  const opened = unpackJob(rewritten((doc) => ({ ...doc, version: 7 })));
  expect(opened).toMatchObject({ ok: false, kind: 'input', reason: expect.stringMatching(/newer Kickflat/) });
});

test.each([
  [
    'an opacity of 3',
    (d: never) => setAt(d, ['faces', 'bottom', 'inks', 0, 'opacity'], 3),
    /faces\.bottom\.inks\[0\]\.opacity/,
  ],
  ['a missing deck', (d: never) => setAt(d, ['deck'], undefined), /deck/],
  ['no version', (d: never) => setAt(d, ['version'], 'one'), /version/],
  ['the same ink twice', (d: never) => twice(d), /twice/],
  [
    'art that is not there',
    (d: never) => setAt(d, ['faces', 'bottom', 'art', 0, 'hash'], 'f'.repeat(64)),
    /missing/,
  ],
])('a damaged job says where: %s', (_, change, words) => {
  const opened = unpackJob(rewritten(change as never));
  expect(opened).toMatchObject({ ok: false, kind: 'input', reason: expect.stringMatching(words) });
});

function setAt(doc: Record<string, unknown>, path: (string | number)[], value: unknown): unknown {
  let at = doc as Record<string | number, never>;
  for (const key of path.slice(0, -1)) at = at[key] as never;
  (at as Record<string | number, unknown>)[path.at(-1) as string] = value;
  return doc;
}
function twice(doc: Record<string, never>): unknown {
  const inks = (doc as unknown as { faces: { bottom: { inks: unknown[] } } }).faces.bottom.inks;
  inks.push(inks[0]);
  return doc;
}

test('a job cut anywhere is refused in words, or is whole', () => {
  const whole = packJob(sample());
  for (let end = 0; end < whole.length; end += 97) {
    const opened = unpackJob(whole.subarray(0, end));
    expect(opened.ok).toBe(false);
    if (!opened.ok) expect(opened.reason.length).toBeGreaterThan(20);
  }
});

test('art that was changed inside the file is noticed', () => {
  const files = unzipSync(packJob(sample()));
  files[`art/${facts.hash}`] = strToU8('<svg/>');
  expect(unpackJob(zipSync(files))).toMatchObject({ ok: false, reason: expect.stringMatching(/check sum/) });
});

test('a document that would unpack to hundreds of megabytes is refused unread', () => {
  const bomb = zipSync({ 'job.json': new Uint8Array(200 * 1024 * 1024) }, { level: 9 });
  expect(bomb.length).toBeLessThan(1024 * 1024);
  expect(unpackJob(bomb)).toMatchObject({ ok: false, reason: expect.stringMatching(/unpack to 200 MB/) });
});
