import type { Deck } from '../../core/deck/index.ts';
import { outlineRing, ringArea } from '../../core/deck/index.ts';
import { facePreview } from '../../core/facePreview.ts';
import { canonicalJson, newJob, packJob, unpackJob } from '../../core/job/index.ts';
import type { FileStore, ImageCodec, Workers } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import type { TextSetting } from '../../core/text/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { chooseDeck } from '../../electron/commands/deckChoice.ts';
import type { Context } from '../../electron/commands/index.ts';
import { chooseInks } from '../../electron/commands/inkChoice.ts';
import { setAside } from '../../electron/commands/textOptions.ts';
import { TRIAL_SIDE } from '../../electron/host/index.ts';
import { FILE_NAMES, type Kind } from './goodInputs.ts';

/** How an input ended. `wrong` says what is not right about an import that was accepted, or about a refusal's words. */
export type Ending =
  | { readonly end: 'refused'; readonly reason: string; readonly wrong: string | null }
  | { readonly end: 'imported'; readonly wrong: string | null };

/** The colour of the file that no import may read. */
export const BAIT_COLOUR = [1, 254, 3] as const;

/** The program's files, with one file in them. */
const holding = (bytes: Uint8Array): FileStore => ({
  read: async () => done(bytes),
  write: () => Promise.reject(new Error('An import wrote a file.')),
  writeAll: () => Promise.reject(new Error('An import wrote files.')),
});

const contextOf = (bytes: Uint8Array, codec: ImageCodec): Context => ({
  files: holding(bytes),
  codec,
  workers: () => {
    throw new Error('An import asked for workers.');
  },
  voice: { out: () => undefined, err: () => undefined, terminal: false },
  abort: { aborted: false },
});

const utf8 = (text: string) => new TextEncoder().encode(text);
const NO_ART: Picture = { width: 1, height: 1, data: new Uint8Array(4) } as unknown as Picture;

function pictureWrong(picture: Picture, width: number, height: number): string | null {
  if (picture.width !== width || picture.height !== height)
    return `${width} × ${height} points were promised, ${picture.width} × ${picture.height} came`;
  if (picture.data.length !== width * height * 4) return 'the points are not as many as the picture has';
  for (let i = 0; i < picture.data.length; i += 4)
    if (BAIT_COLOUR.every((value, c) => picture.data[i + c] === value)) return 'a file outside was read';
  return null;
}

async function art(bytes: Uint8Array, name: string, codec: ImageCodec): Promise<Outcome<string | null>> {
  const probe = await codec.probe(bytes, name);
  if (!probe.ok) return probe;
  const { widthPx, heightPx, vector, stated } = probe.value;
  if (stated && !(stated.width > 0 && stated.height > 0 && Number.isFinite(stated.width + stated.height)))
    return done('a size is stated that is none');
  if (!vector) {
    const picture = await codec.decode(bytes, name);
    return picture.ok ? done(pictureWrong(picture.value, widthPx, heightPx)) : picture;
  }
  // As the program looks at art that comes in.
  const k = TRIAL_SIDE / Math.max(widthPx, heightPx);
  const outWidth = Math.max(1, Math.round(widthPx * k));
  const outHeight = Math.max(1, Math.round(heightPx * k));
  const window = { x: 0, y: 0, width: widthPx, height: heightPx, outWidth, outHeight, look: true };
  const picture = await codec.rasterise(bytes, name, window);
  return picture.ok ? done(pictureWrong(picture.value, outWidth, outHeight)) : picture;
}

/** A file in layers is right when each of them is art that is right, and all are of one size. */
async function layers(bytes: Uint8Array, name: string, codec: ImageCodec): Promise<Outcome<string | null>> {
  const split = await codec.layers(bytes, name);
  if (!split.ok) return split;
  const sizes = new Set<string>();
  for (const layer of split.value) {
    const right = await art(layer.bytes, 'layer', codec);
    if (!right.ok || right.value !== null)
      return done(`its layer ${layer.name} is wrong: ${right.ok ? right.value : right.reason}`);
    const probe = await codec.probe(layer.bytes, 'layer');
    if (probe.ok) sizes.add(`${probe.value.widthPx} × ${probe.value.heightPx}`);
  }
  return done(sizes.size > 1 ? 'its layers differ in size' : null);
}

/** A deck is right when its outline has an area and the whole way from it to masks can be gone. */
function deckWrong(deck: Deck): string | null {
  const ring = outlineRing(deck, 'bottom');
  if (!ring.flat().every(Number.isFinite)) return 'its outline has points that are none';
  const area = Math.abs(ringArea(ring));
  if (!(area > 0)) return 'its outline has no area';
  const shown = facePreview({
    job: newJob({ name: 'a', deck }),
    face: 'bottom',
    pictures: new Map(),
    dpi: 10,
    traps: false,
  });
  if (!shown.ok) return null;
  const { box, deck: mask } = shown.value;
  if (![box.x, box.y, box.width, box.height].every(Number.isFinite)) return 'its surface is nowhere';
  return mask.data.some((word) => word !== 0) ? null : 'its surface is empty';
}

function jobWrong(bytes: Uint8Array): Outcome<string | null> {
  const file = unpackJob(bytes);
  if (!file.ok) return file;
  const again = unpackJob(packJob(file.value));
  if (!again.ok) return done(`saved again it can not be opened: ${again.reason}`);
  if (canonicalJson(again.value.job) !== canonicalJson(file.value.job)) return done('it changes when saved');
  const pictures = new Map([...file.value.art.keys()].map((hash) => [hash, NO_ART]));
  for (const face of ['bottom', 'top'] as const)
    facePreview({ job: file.value.job, face, pictures, dpi: 10, traps: true });
  return done(null);
}

async function palette(bytes: Uint8Array, name: string, codec: ImageCodec): Promise<Outcome<string | null>> {
  const inks = await chooseInks(contextOf(bytes, codec), name, NO_ART, null);
  if (!inks.ok) return inks;
  const right = inks.value.every((ink) => /^#[0-9a-f]{6}$/.test(ink.hex) && ink.name.length > 0);
  const ids = new Set(inks.value.map((ink) => ink.id));
  return done(
    right && ids.size === inks.value.length ? null : 'an ink has no colour, no name or no id of its own',
  );
}

const SETTING: TextSetting = {
  words: 'Breakwater\nJam 8',
  cap: 20,
  tracking: 0.5,
  leading: 1.5,
  align: 'centre',
  arc: 0,
  hex: '#1b2440',
};

/** A font is right when the words set in it are art that is right, or it is refused in words. */
async function font(
  bytes: Uint8Array,
  name: string,
  { codec, workers }: Tools,
): Promise<Outcome<string | null>> {
  const set = await setAside({ workers: () => workers }, { fonts: [{ name, bytes }], setting: SETTING });
  if (!set.ok) return set;
  const drawn = await art(utf8(set.value.svg), 'words.svg', codec);
  return drawn.ok ? drawn : done(`the words set in it can not be drawn: ${drawn.reason}`);
}

/** What the program imports with. */
export interface Tools {
  readonly codec: ImageCodec;
  readonly workers: Workers;
}

async function imported(kind: Kind, bytes: Uint8Array, tools: Tools): Promise<Outcome<string | null>> {
  const { codec } = tools;
  const name = FILE_NAMES[kind];
  switch (kind) {
    case 'job':
      return jobWrong(bytes);
    case 'gpl palette':
    case 'json palette':
      return palette(bytes, name, codec);
    case 'open raster':
    case 'pdf':
      return layers(bytes, name, codec);
    case 'outline svg':
    case 'dxf':
    case 'deck json': {
      const deck = await chooseDeck(contextOf(bytes, codec), name);
      return deck.ok ? done(deckWrong(deck.value)) : deck;
    }
    case 'ttf':
    case 'woff':
    case 'woff2':
      return font(bytes, name, tools);
    default:
      return art(bytes, name, codec);
  }
}

/** A refusal is one sentence with a mend, on one line, without the program's insides. */
function wordsWrong(reason: string, mend: string): string | null {
  for (const [what, text] of [
    ['reason', reason],
    ['mend', mend],
  ] as const) {
    if (!/[.?!]$/.test(text)) return `the ${what} is no sentence: ${text}`;
    if (/[\n\r]|\bat \w+ \(|undefined|\[object|node_modules/.test(text))
      return `the ${what} shows insides: ${text}`;
    if (text.length > 500) return `the ${what} is ${text.length} characters long`;
  }
  return null;
}

/** One input through the door of its kind. A bug throws. */
export async function importInput(kind: Kind, bytes: Uint8Array, tools: Tools): Promise<Ending> {
  const outcome = await imported(kind, bytes, tools);
  return outcome.ok
    ? { end: 'imported', wrong: outcome.value }
    : { end: 'refused', reason: outcome.reason, wrong: wordsWrong(outcome.reason, outcome.mend) };
}
