import { extname } from 'node:path';
import { type Art, type FaceJob, type Ink, idFrom, LAYER_TAKES } from '../../core/job/index.ts';
import { inkNamed, takesOf } from '../../core/layerInks.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { type ArtRead, lookInto, readArt, readLayers } from './artIn.ts';
import type { Context } from './context.ts';
import { choiceOf, type Given, type OptionSpec, unknown } from './options.ts';

/** Options about layers and about inks that are split another way than their face. */
export const LAYER_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'layers',
    value: "'Layer=Ink,…'",
    help: 'method layered: the ink each layer prints, or none; layers named like inks need not be told',
  },
  {
    name: 'takes',
    value: LAYER_TAKES.join('|'),
    help: 'what of a layer is ink: all that is drawn (alpha), or as much as it is dark (darkness)',
  },
  {
    name: 'line',
    value: 'INK…',
    many: true,
    help: 'inks cut sharp as line work among index dots or a halftone',
  },
  {
    name: 'screened',
    value: 'INK…',
    many: true,
    help: 'method layered: inks whose layers are screened tones',
  },
];

/** A piece as read, and what it was in its file. */
export interface PieceRead extends ArtRead {
  /** Pieces of one file share it; null: it is a file of its own. */
  readonly file: string | null;
  /** What the layer is called; null: it is no layer. */
  readonly layer: string | null;
  readonly hidden: boolean;
}

/**
 * The files as pieces: a file in layers as one piece a layer. With `layered` a single drawing is taken by its groups, and
 * other files are a layer each, named by their file.
 */
export async function piecesGiven(
  context: Context,
  paths: readonly string[],
  layered: boolean,
): Promise<Outcome<PieceRead[]>> {
  const pieces: PieceRead[] = [];
  for (const path of paths) {
    const file = await readLayers(context, path, layered && paths.length === 1);
    if (!file.ok) return file;
    const { name, layers } = file.value;
    if (layers.length === 0) {
      const read = await readArt(context, path);
      if (!read.ok) return read;
      const stem = name.slice(0, name.length - extname(name).length);
      pieces.push({ ...read.value, file: null, layer: layered ? stem : null, hidden: false });
      continue;
    }
    const several = layers.length > 1;
    for (const each of layers) {
      const read = await lookInto(context, each.bytes, several ? each.name : name, several);
      if (!read.ok) return read;
      pieces.push({
        ...read.value,
        file: several ? name : null,
        layer: several || layered ? each.name : null,
        hidden: several && each.hidden,
      });
    }
  }
  return done(pieces);
}

/** `Layer=Ink,Layer=none` as asked for; every name must be there. */
function inksAsked(
  text: string,
  layers: readonly string[],
  inks: readonly Ink[],
): Outcome<Map<string, string | null>> {
  const asked = new Map<string, string | null>();
  for (const part of text.split(',')) {
    const at = part.lastIndexOf('=');
    if (at < 1) return optionTrouble.notLayer(part.trim().slice(0, 60));
    const [layer, ink] = [part.slice(0, at).trim(), part.slice(at + 1).trim()];
    const known = layers.find((name) => name.trim().toLowerCase() === layer.toLowerCase());
    if (known === undefined) return unknown('layer', layer, layers, '');
    if (ink.toLowerCase() === 'none') asked.set(known, null);
    else {
      const found = inkNamed(inks, ink);
      if (!found)
        return unknown(
          'ink',
          ink,
          inks.map(({ name }) => name),
          '',
        );
      asked.set(known, found.id);
    }
  }
  return done(asked);
}

/** The face's new pieces as layers of its inks. `read` are those pieces, in the same order, from place `first` of the face's. */
export function asLayers(
  given: Given,
  face: FaceJob,
  read: readonly PieceRead[],
  first: number,
): Outcome<Art[]> {
  const takes = choiceOf(given, 'takes', LAYER_TAKES);
  if (!takes.ok) return takes;
  const names = read.map(({ layer, name }) => layer ?? name);
  const text = given.text('layers');
  const asked =
    text === undefined ? done(new Map<string, string | null>()) : inksAsked(text, names, face.inks);
  if (!asked.ok) return asked;
  return done(
    face.art.map((piece, i) => {
      const own = read[i - first];
      if (!own) return piece;
      const name = names[i - first] as string;
      const ink = asked.value.has(name)
        ? (asked.value.get(name) ?? null)
        : (inkNamed(face.inks, name)?.id ?? null);
      return { ...piece, layer: { ink, takes: takes.value ?? takesOf(own.look) } };
    }),
  );
}

/** The inks with those that `--line` and `--screened` name split that way. */
export function splitGiven(given: Given, inks: readonly Ink[]): Outcome<Ink[]> {
  const splits = new Map<string, 'spot' | 'halftone'>();
  for (const [option, split] of [
    ['line', 'spot'],
    ['screened', 'halftone'],
  ] as const)
    for (const name of given.texts(option)) {
      const found = inkNamed(inks, name);
      if (!found)
        return unknown(
          'ink',
          name,
          inks.map((ink) => ink.name),
          '',
        );
      splits.set(found.id, split);
    }
  return done(inks.map((ink) => (splits.has(ink.id) ? { ...ink, split: splits.get(ink.id) } : ink)));
}

/** Ids for the files that pieces came from, new among a face's groups. */
export function groupsOf(read: readonly PieceRead[], art: readonly Art[]): Map<string, string> {
  const taken = new Set(art.flatMap(({ group }) => (group === undefined ? [] : [group])));
  const groups = new Map<string, string>();
  for (const { file } of read)
    if (file !== null && !groups.has(file)) {
      const id = idFrom(file.replace(/\.[^.]*$/, ''), taken);
      taken.add(id);
      groups.set(file, id);
    }
  return groups;
}
