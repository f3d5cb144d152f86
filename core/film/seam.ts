import type { Box } from '../units/index.ts';
import { overlap as meets } from './bounds.ts';
import { type Crossing, cutShapes, FEEL, inkCrossings, straightCut, wasteDashes } from './cut.ts';
import { cutBand } from './cutCosts.ts';
import type { SeamScale } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import { inkPart } from './inkPart.ts';
import { anyInk } from './inkSearch.ts';
import { MARK_LINE } from './markGroup.ts';
import { type Affine, apply, line, place, type Shape } from './shape.ts';
import { blankCut, shapedCut } from './shapedCut.ts';
import { FIXED_PITCH, VERNIER_DEPTH, VERNIER_FIRST, VERNIER_LENGTH, vernierScale } from './vernier.ts';

/** A station of cross-hairs in an overlap: mm it takes along the strip, half an arm, and its distance from the edge. */
const STATION = 10;
const ARM = 2;
const INSET = 2.6;
const CLEAR = 0.6;
/** mm at either end of the strip that stay free for the cut's tick. */
const TICK_ROOM = 3.2;
/** mm a film needs beyond its art at a seam's ends for tick, station and clearance. */
export const SEAM_MARGIN = TICK_ROOM + STATION + 2 * CLEAR;
/** The same where only single cross-hairs must fit, and a scale that reads the shift along the film. */
export const SLIM_SEAM_MARGIN = 0.5 + VERNIER_DEPTH + 2 * CLEAR;
/** mm from either end within which a station must stand; further in it would stand among the art. */
const END = 24;
/** Narrowest overlap in which two cross-hairs and a scale stand side by side. */
const ROOM_FOR_VERNIER = 2 * (INSET + ARM) + 9.2;

/** mm between a scale and what else stands in the strip. */
const APART = 0.3;
/** mm a scale reaches before its long tick, half a line included. */
const SCALE_BEFORE = -VERNIER_FIRST * FIXED_PITCH + 0.2;

export interface SeamPlan {
  readonly path: readonly (readonly [number, number])[];
  readonly crossings: readonly Crossing[];
  readonly crossHairs: readonly (readonly [number, number])[];
  readonly scales: readonly SeamScale[];
  /** Film space; the first sheet prints fixed scales, the second moving ones, both print the cross-hairs and cut ticks. */
  readonly first: readonly Shape[];
  readonly second: readonly Shape[];
}

const crossHair = (x: number, y: number): Shape[] => [
  line(MARK_LINE, [x - ARM, y], [x + ARM, y]),
  line(MARK_LINE, [x, y - ARM], [x, y + ARM]),
];

/** The shared strip in its own space: p along the cut from the lower or left end, q across it; mm. */
interface Strip {
  readonly length: number;
  readonly width: number;
  readonly toFilm: Affine;
  /** Nothing prints or stands in this rectangle (p, q, its lengths), with clearance. */
  readonly free: (p: number, q: number, dp: number, dq: number) => boolean;
}

/** A rectangle of the strip (p, q, its lengths) in film space. */
function stripBox({ toFilm }: Pick<Strip, 'toFilm'>, p: number, q: number, dp: number, dq: number): Box {
  const [x, y] = apply(toFilm, p, q);
  const [x1, y1] = apply(toFilm, p + dp, q + dq);
  return { x, y, width: x1 - x, height: y1 - y };
}

function stripOf(
  films: readonly FilmArt[],
  band: Box,
  runs: 'across' | 'along',
  taken: readonly Box[],
): Strip {
  const across = runs === 'across';
  const toFilm: Affine = across ? [0, 1, 1, 0, band.x, band.y] : [1, 0, 0, 1, band.x, band.y];
  const free = (p: number, q: number, dp: number, dq: number): boolean => {
    const box = stripBox({ toFilm }, p - CLEAR, q - CLEAR, dp + 2 * CLEAR, dq + 2 * CLEAR);
    return !taken.some((mark) => meets(mark, box)) && !anyInk(films, box);
  };
  return {
    length: across ? band.height : band.width,
    width: across ? band.width : band.height,
    toFilm,
    free,
  };
}

/** Starts (p) of the stations at the strip's two ends; undefined where an end is not free for one. */
function stationStarts({ length, width, free }: Strip): readonly [number | undefined, number | undefined] {
  const starts: number[] = [];
  const reach = Math.min(END, length / 2) - STATION;
  for (let p = TICK_ROOM; p <= reach; p += 0.5) starts.push(p);
  const low = starts.find((p) => free(p, 0, STATION, width));
  const far = starts.find((p) => free(length - STATION - p, 0, STATION, width));
  return [low, far === undefined ? undefined : length - STATION - far];
}

/** Single cross-hairs wherever they fit, those nearest an end first, so that they stay out of the art if they can. */
function looseHairs(
  { length, width, free }: Strip,
  have: readonly (readonly [number, number])[],
): [number, number][] {
  const small = 2 * ARM;
  const spots: [number, number][] = [];
  for (let p = 0.5; p + small + 0.5 <= length; p += 1) {
    for (let q = 0.5; q + small + 0.5 <= width; q += 1) spots.push([p + ARM, q + ARM]);
  }
  const end = ([p]: readonly [number, number]) => Math.min(p, length - p);
  const off = ([, q]: readonly [number, number]) => Math.abs(q - width / 2);
  // Nearest the ends, and there away from the middle, where the cut runs.
  spots.sort((a, b) => end(a) - end(b) || off(b) - off(a) || a[0] - b[0] || a[1] - b[1]);
  const out: [number, number][] = [];
  // Two at each end while there is room, then wherever there is.
  for (const most of [2, 4]) {
    for (const spot of spots) {
      const all = [...have, ...out];
      if (all.length >= 4) return out;
      const low = spot[0] < length / 2;
      if (all.filter(([p]) => p < length / 2 === low).length >= most) continue;
      if (all.some(([p, q]) => Math.hypot(p - spot[0], q - spot[1]) <= small + 1)) continue;
      if (free(spot[0] - ARM, spot[1] - ARM, small, small)) out.push(spot);
    }
  }
  return out;
}

/** A scale's place in the strip, p and q of its long ticks, and whether it reads along the cut or across it. */
interface Spot {
  readonly p: number;
  readonly q: number;
  readonly reads: 'cut' | 'width';
}

/** The rectangle a scale takes about its place: p, q and its lengths. */
const spotRoom = ({ p, q, reads }: Spot): readonly [number, number, number, number] =>
  reads === 'cut'
    ? [p - SCALE_BEFORE, q - VERNIER_DEPTH / 2, VERNIER_LENGTH, VERNIER_DEPTH]
    : [p - VERNIER_DEPTH / 2, q - SCALE_BEFORE, VERNIER_DEPTH, VERNIER_LENGTH];

/** A blank place for a scale that found no station, nearest an end of the strip; undefined where there is none. */
function looseScale(
  { length, width, free }: Strip,
  reads: Spot['reads'],
  hairs: readonly (readonly [number, number])[],
  have: readonly Spot[],
): Spot | undefined {
  const [dp, dq] = reads === 'cut' ? [VERNIER_LENGTH, VERNIER_DEPTH] : [VERNIER_DEPTH, VERNIER_LENGTH];
  const boxes = [
    ...hairs.map(([p, q]) => ({ x: p - ARM, y: q - ARM, width: 2 * ARM, height: 2 * ARM })),
    ...have.map((spot) => {
      const [x, y, w, h] = spotRoom(spot);
      return { x, y, width: w, height: h };
    }),
  ];
  const spots: { p: number; q: number; end: number }[] = [];
  for (let p = 0.5; p + dp + 0.5 <= length; p += 1)
    for (let q = 0.5; q + dq + 0.5 <= width; q += 0.5)
      spots.push({ p, q, end: Math.min(p, length - p - dp) });
  spots.sort((a, b) => a.end - b.end || a.p - b.p || a.q - b.q);
  for (const { p, q } of spots) {
    const room = { x: p - APART, y: q - APART, width: dp + 2 * APART, height: dq + 2 * APART };
    if (boxes.some((box) => meets(box, room)) || !free(p, q, dp, dq)) continue;
    return reads === 'cut'
      ? { p: p + SCALE_BEFORE, q: q + VERNIER_DEPTH / 2, reads }
      : { p: p + VERNIER_DEPTH / 2, q: q + SCALE_BEFORE, reads };
  }
  return undefined;
}

/** Cross-hairs and scales of a strip: at stations at its two ends where film is blank there, else wherever it is. */
function seamMarks(
  strip: Strip,
  verniers: boolean,
): { readonly hairs: [number, number][]; readonly spots: readonly Spot[] } {
  const { width } = strip;
  const hairs: [number, number][] = [];
  const spots: Spot[] = [];
  for (const [i, start] of stationStarts(strip).entries()) {
    if (start === undefined) continue;
    const middle = start + STATION / 2;
    if (width >= 2 * (INSET + ARM) + 1) hairs.push([middle, INSET], [middle, width - INSET]);
    else if (width >= 2 * ARM + 1)
      hairs.push([start + ARM + 0.5, width / 2], [start + STATION - ARM - 0.5, width / 2]);
    if (width < ROOM_FOR_VERNIER || !verniers) continue;
    // One end reads the shift along the cut, the other the shift across it.
    spots.push(
      i === 0
        ? { p: middle - 0.5, q: width / 2, reads: 'cut' }
        : { p: middle, q: width / 2 - 0.5, reads: 'width' },
    );
  }
  if (hairs.length < 4) hairs.push(...looseHairs(strip, hairs));
  for (const reads of verniers ? (['cut', 'width'] as const) : []) {
    if (spots.some((spot) => spot.reads === reads)) continue;
    const spot = looseScale(strip, reads, hairs, spots);
    if (spot) spots.push(spot);
  }
  return { hairs, spots };
}

/**
 * What two neighbours share in their overlap: four cross-hairs, a vernier for each axis where there is room, and the cut.
 * `band` in film space.
 */
export function planSeam(
  film: FilmArt,
  films: readonly FilmArt[],
  band: Box,
  runs: 'across' | 'along',
  taken: readonly Box[],
  how: { readonly verniers: boolean; readonly shaped: boolean },
): SeamPlan {
  const strip = stripOf(films, band, runs, taken);
  const { toFilm } = strip;
  const { hairs, spots } = seamMarks(strip, how.verniers);
  const first: Shape[] = [];
  const second: Shape[] = [];
  for (const { p, q, reads } of spots) {
    const at: Affine = reads === 'cut' ? [1, 0, 0, 1, p, q] : [0, 1, 1, 0, p, q];
    first.push(...place(place(vernierScale('fixed'), at), toFilm));
    second.push(...place(place(vernierScale('moving'), at), toFilm));
  }
  const both = hairs.flatMap(([p, q]) => place(crossHair(p, q), toFilm));
  const { path, crossings } = bestCut(film, band, runs, how.shaped);
  // What stands in the strip must stay readable: the cut's lines leave it out.
  const standing = [
    ...taken,
    ...hairs.map(([p, q]) => stripBox(strip, p - ARM, q - ARM, 2 * ARM, 2 * ARM)),
    ...spots.map((spot) => stripBox(strip, ...spotRoom(spot))),
  ];
  both.push(...cutShapes(films, path, standing));
  // The second sheet lies on top; what it loses lies left of the path as it runs.
  const lead = path.length > 2 ? wasteDashes(film, path, standing) : [];
  return {
    path,
    crossings,
    crossHairs: hairs.map(([p, q]) => apply(toFilm, p, q)),
    scales: spots.map(({ p, q, reads }) => {
      const [x, y] = apply(toFilm, p, q);
      return { x, y, reads: (reads === 'cut') === (runs === 'along') ? 'along' : 'across' };
    }),
    first: [...first, ...both],
    second: [...second, ...both, ...lead],
  };
}

/** A shaped cut must save this much crossed ink, mm, or all of it, to be worth following by hand. */
const WORTH = 2;
/** Degrees off square beyond which a crossing is aslant: its sliver of ink tears, and its joint shows (common practice, no source). */
export const ASLANT = 35;

const total = (list: readonly Crossing[]) => list.reduce((sum, one) => sum + one.length, 0);
const aslant = (list: readonly Crossing[]) => list.filter((one) => one.slantDeg > ASLANT).length;

/**
 * The straight cut, unless a shaped one crosses clearly less ink, or as little of it but square. Where the usual prices still
 * cross ink, a path that does nothing but miss it is tried as well: a blank line that exists is found.
 */
export function bestCut(
  film: FilmArt,
  band: Box,
  runs: 'across' | 'along',
  shaped: boolean,
): Pick<SeamPlan, 'path' | 'crossings'> {
  const part = inkPart(film, band, FEEL);
  const straight = straightCut(part, band, runs);
  const crossings = inkCrossings(part, straight);
  if (!shaped || crossings.length === 0) return { path: straight, crossings };
  const cells = cutBand(part, band, runs);
  const path = shapedCut(cells, band, runs);
  if (!path) return { path: straight, crossings };
  const fewer = inkCrossings(part, path);
  if (fewer.length > 0) {
    const blank = blankCut(cells, band, runs);
    if (blank && inkCrossings(part, blank).length === 0) return { path: blank, crossings: [] };
  }
  const saves = fewer.length === 0 || total(fewer) + WORTH < total(crossings);
  const squarer = total(fewer) <= total(crossings) && aslant(fewer) < aslant(crossings);
  return saves || squarer ? { path, crossings: fewer } : { path: straight, crossings };
}
