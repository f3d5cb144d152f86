import type { Face } from '../../core/deck/index.ts';
import { FACES } from '../../core/deck/index.ts';
import {
  type Art,
  DEFAULT_HALFTONE,
  DEFAULT_INDEX,
  DITHERS,
  DOT_SHAPES,
  type FaceJob,
  type Job,
  placeArt,
} from '../../core/job/index.ts';
import { inksOfLayers } from '../../core/layerInks.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { together } from './artIn.ts';
import type { Context } from './context.ts';
import { chooseInks, withBase } from './inkChoice.ts';
import { asLayers, groupsOf, LAYER_OPTIONS, piecesGiven, splitGiven } from './layersGiven.ts';
import { choiceOf, type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';
import { TEXT_OPTIONS, textGiven } from './textOptions.ts';

/** Options that `new` and `add` share. */
export const ART_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'art',
    value: 'FILE…',
    many: true,
    help: 'pictures, SVG drawings, or files in layers (OpenRaster, PDF), bottom-most first',
  },
  ...TEXT_OPTIONS,
  { name: 'face', value: 'bottom|top', help: 'the face they go on' },
  {
    name: 'inks',
    value: "N|'#hex=name,…'|FILE",
    help: 'how many inks to find in the art, or which; a palette as .json or .gpl',
  },
  { name: 'from-shelf', help: 'inks found in the art become the nearest ones of your ink shelf' },
  { name: 'method', value: 'spot|index|halftone|layered', help: 'how the art is split into inks (spot)' },
  ...LAYER_OPTIONS,
  { name: 'dot', value: 'LENGTH', help: 'side of a dot, method index (0.25mm)' },
  {
    name: 'dither',
    value: DITHERS.join('|'),
    help: 'how index dots are placed: errors handed on (diffusion), or an even grain (blue-noise)',
  },
  { name: 'lpi', value: 'N', help: 'lines an inch of the screens, method halftone (40)' },
  { name: 'dot-shape', value: 'round|elliptical|line', help: 'how the dots of a halftone grow (elliptical)' },
  {
    name: 'tone-gain',
    value: 'PERCENT',
    help: 'how much darker a tone of one half prints than its film; the films leave it out (0)',
  },
  { name: 'fit', value: 'cover|contain|actual', help: 'size on the deck (actual: the size the file states)' },
  {
    name: 'wrap',
    value: 'surface|plan',
    help: 'art lies along the wood (surface) or is seen from above (plan)',
  },
  { name: 'art-dpi', value: 'N', help: 'points to the inch for art that states none' },
  { name: 'base', help: 'a white base under the inks that need it' },
  { name: 'trap', value: 'LENGTH', help: 'how far an ink spreads under its neighbour (0.5mm)' },
  {
    name: 'gain',
    value: 'LENGTH',
    help: 'how far the inks spread past their stencils; films hold bare gaps open by that (0mm)',
  },
];

export interface Placed {
  readonly job: Job;
  readonly art: ReadonlyMap<string, Uint8Array>;
  /** Files that go into the job beside the art: a font of the user's own. */
  readonly extra: ReadonlyMap<string, Uint8Array>;
  readonly face: Face;
}

/** The face's index dot and halftone screen as asked for; what was not asked for stays. */
function tonesGiven(given: Given): Outcome<(face: FaceJob) => Pick<FaceJob, 'index' | 'halftone'>> {
  const dot = lengthOf(given, 'dot', { least: 0.05, most: 5 });
  if (!dot.ok) return dot;
  const lpi = numberOf(given, 'lpi', { least: 10, most: 200 });
  if (!lpi.ok) return lpi;
  const shape = choiceOf(given, 'dot-shape', DOT_SHAPES);
  if (!shape.ok) return shape;
  const dither = choiceOf(given, 'dither', DITHERS);
  if (!dither.ok) return dither;
  const gain = numberOf(given, 'tone-gain', { least: -20, most: 45 });
  if (!gain.ok) return gain;
  return done((face) => ({
    ...(dot.value === undefined && dither.value === undefined
      ? {}
      : {
          index: {
            ...(face.index ?? DEFAULT_INDEX),
            ...(dot.value === undefined ? {} : { dotMm: dot.value as number }),
            ...(dither.value === undefined ? {} : { dither: dither.value }),
          },
        }),
    ...(lpi.value === undefined && shape.value === undefined && gain.value === undefined
      ? {}
      : {
          halftone: {
            ...(face.halftone ?? DEFAULT_HALFTONE),
            ...(lpi.value === undefined ? {} : { lpi: lpi.value }),
            ...(shape.value === undefined ? {} : { dot: shape.value }),
            ...(gain.value === undefined ? {} : { gain: { midtone: gain.value / 100 } }),
          },
        }),
  }));
}

/** The job with more said of the piece that was placed last. */
function lastPiece(job: Job, face: Face, more: Partial<Art>): Job {
  const { art } = job.faces[face];
  const changed = art.map((piece, i) => (i === art.length - 1 ? { ...piece, ...more } : piece));
  return { ...job, faces: { ...job.faces, [face]: { ...job.faces[face], art: changed } } };
}

/** The job with the art that was asked for on its face, and that face's inks. `face` is the default one. */
export async function placeGiven(
  context: Context,
  given: Given,
  job: Job,
  otherwise: Face,
): Promise<Outcome<Placed>> {
  const paths = given.texts('art');
  if (paths.length === 0 && given.text('text') === undefined) return optionTrouble.noArt();
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const method = choiceOf(given, 'method', ['spot', 'index', 'halftone', 'layered'] as const);
  if (!method.ok) return method;
  const tones = tonesGiven(given);
  if (!tones.ok) return tones;
  const fit = choiceOf(given, 'fit', ['cover', 'contain', 'actual'] as const);
  if (!fit.ok) return fit;
  const wrap = choiceOf(given, 'wrap', ['surface', 'plan'] as const);
  if (!wrap.ok) return wrap;
  const artDpi = numberOf(given, 'art-dpi', { least: 1, most: 100_000 });
  if (!artDpi.ok) return artDpi;
  const trap = lengthOf(given, 'trap', { least: 0, most: 10 });
  if (!trap.ok) return trap;
  const gain = lengthOf(given, 'gain', { least: 0, most: 2 });
  if (!gain.ok) return gain;

  const to = face.value ?? otherwise;
  const art = new Map<string, Uint8Array>();
  const looks = [];
  let placed = job;
  let ground: string | null = null;
  const read = await piecesGiven(context, paths, method.value === 'layered');
  if (!read.ok) return read;
  const pieces = read.value;
  const groups = groupsOf(pieces, job.faces[to].art);
  for (const { name, bytes, hash, probe, look, file, hidden, ...own } of pieces) {
    const facts = { ...probe, name, hash, ground: own.ground };
    const options = {
      fit: fit.value ?? 'actual',
      wrap: wrap.value ?? 'surface',
      artDpi: artDpi.value ?? null,
    } as const;
    const next = placeArt(placed, to, facts, options);
    if (!next.ok) return next;
    const more: Partial<Art> = { hidden, ...(file === null ? {} : { group: groups.get(file) }) };
    placed = lastPiece(next.value.job, to, more);
    ground ??= own.ground;
    art.set(hash, bytes);
    looks.push(look);
  }
  const text = await textGiven(context, given, placed, to);
  if (!text.ok) return text;
  if (text.value) {
    placed = text.value.job;
    art.set(text.value.hash, text.value.bytes);
    looks.push(text.value.look);
  }
  const settings = placed.faces[to];
  let inks = settings.inks;
  const layered =
    method.value === 'layered' || (method.value === undefined && pieces.some(({ file }) => file));
  const asked = given.text('inks');
  if (layered && asked !== undefined && /^\d+$/.test(asked)) return optionTrouble.inksForLayers();
  if (layered && inks.length === 0 && asked === undefined)
    inks = inksOfLayers(
      pieces.filter(({ hidden }) => !hidden).map(({ layer, name, look }) => ({ name: layer ?? name, look })),
    );
  else if (inks.length === 0 || asked !== undefined) {
    const chosen = await chooseInks(context, asked, together(looks), ground, given.flag('from-shelf'));
    if (!chosen.ok) return chosen;
    inks = chosen.value;
  }
  if (given.flag('base')) inks = withBase(inks);
  const split = splitGiven(given, inks);
  if (!split.ok) return split;
  inks = split.value;
  const spread = gain.value;
  if (spread !== undefined) inks = inks.map((ink) => ({ ...ink, gain: spread as number }));
  const traps = { ...settings.traps, ...(trap.value === undefined ? {} : { width: trap.value }) };
  const placedArt = layered
    ? asLayers(given, { ...settings, inks }, pieces, job.faces[to].art.length)
    : done(settings.art);
  if (!placedArt.ok) return placedArt;
  const next = {
    ...settings,
    ...tones.value(settings),
    art: placedArt.value,
    inks,
    traps,
    method: layered ? ('layered' as const) : (method.value ?? settings.method),
  };
  const extra = text.value?.extra ?? new Map();
  return done({ job: { ...placed, faces: { ...placed.faces, [to]: next } }, art, extra, face: to });
}
