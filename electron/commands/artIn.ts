import { basename } from 'node:path';
import type { ArtLayer, ArtProbe } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import { groundOf } from '../../core/separate/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { comesInLayers, hashOf, TRIAL_SIDE } from '../host/index.ts';
import type { Context } from './context.ts';

const MOST_ART_BYTES = 100 * 1024 * 1024;
/** Longer side at which colours are looked for: thin lines still show, and a drawing has been drawn so for its trial. */
const LOOK_SIDE = TRIAL_SIDE;

/** A piece of art as read from disk. */
export interface ArtRead {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly hash: string;
  readonly probe: ArtProbe;
  /** The art at a modest size. */
  readonly look: Picture;
  /** The colour of a paper ground, or null. */
  readonly ground: string | null;
}

/** Art at most `side` points a side, a drawing or a picture alike. */
export async function lookAt(
  context: Context,
  bytes: Uint8Array,
  name: string,
  probe: ArtProbe,
  side: number,
): Promise<Outcome<Picture>> {
  if (!probe.vector) return context.codec.decode(bytes, name, side);
  const k = side / Math.max(probe.widthPx, probe.heightPx);
  return context.codec.rasterise(bytes, name, {
    x: 0,
    y: 0,
    width: probe.widthPx,
    height: probe.heightPx,
    outWidth: Math.max(1, Math.round(probe.widthPx * k)),
    outHeight: Math.max(1, Math.round(probe.heightPx * k)),
    look: true,
  });
}

/** Alpha below this does not print. */
const FAINTEST = 8;

function showsNothing({ data }: Picture): boolean {
  for (let i = 3; i < data.length; i += 4) if ((data[i] as number) >= FAINTEST) return false;
  return true;
}

export function seeThrough({ data }: Picture): boolean {
  for (let i = 3; i < data.length; i += 4) if ((data[i] as number) < 128) return true;
  return false;
}

/** Reads a piece of art, or says why it can not be printed. */
export async function readArt(context: Context, path: string): Promise<Outcome<ArtRead>> {
  const bytes = await context.files.read(path, MOST_ART_BYTES);
  return bytes.ok ? lookInto(context, bytes.value, basename(path), false) : bytes;
}

/** A file and the layers it was prepared in; none where it is one picture. */
export interface LayersRead {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly layers: readonly ArtLayer[];
}

/** Reads a file with its layers. A drawing's groups are looked for only where they are `wanted`. */
export async function readLayers(
  context: Context,
  path: string,
  wanted: boolean,
): Promise<Outcome<LayersRead>> {
  const bytes = await context.files.read(path, MOST_ART_BYTES);
  if (!bytes.ok) return bytes;
  const name = basename(path);
  if (!wanted && !comesInLayers(bytes.value)) return done({ name, bytes: bytes.value, layers: [] });
  const layers = await context.codec.layers(bytes.value, name);
  return layers.ok ? done({ name, bytes: bytes.value, layers: layers.value }) : layers;
}

/** A piece of art from its bytes. `mayBeBlank`: a layer with nothing on it is taken too. */
export async function lookInto(
  context: Context,
  bytes: Uint8Array,
  name: string,
  mayBeBlank: boolean,
): Promise<Outcome<ArtRead>> {
  const probe = await context.codec.probe(bytes, name);
  if (!probe.ok) return probe;
  const look = await lookAt(context, bytes, name, probe.value, LOOK_SIDE);
  if (!look.ok) return look;
  if (!mayBeBlank && showsNothing(look.value)) return artTrouble.transparent(name);
  return done({
    name,
    bytes,
    hash: hashOf(bytes),
    probe: probe.value,
    look: look.value,
    ground: seeThrough(look.value) ? null : groundOf(look.value),
  });
}

/** Several looks one under the other on transparent ground, so that colours are found in all of them at once. */
export function together(pictures: readonly Picture[]): Picture {
  const [only] = pictures;
  if (only && pictures.length === 1) return only;
  const width = Math.max(...pictures.map((p) => p.width));
  const height = pictures.reduce((sum, p) => sum + p.height, 0);
  const data = new Uint8Array(width * height * 4);
  let row = 0;
  for (const picture of pictures) {
    const bytes = picture.width * 4;
    for (let y = 0; y < picture.height; y++, row++)
      data.set(picture.data.subarray(y * bytes, (y + 1) * bytes), row * width * 4);
  }
  return { width, height, data };
}
