import type { Box } from '../units/index.ts';
import { overlap as meets } from './bounds.ts';
import { crossingsOf, cutShapes, straightCut, wasteDashes } from './cut.ts';
import type { FilmArt } from './filmArt.ts';
import { anyInk } from './inkSearch.ts';
import { MARK_LINE } from './markGroup.ts';
import { type Affine, apply, line, place, type Shape } from './shape.ts';
import { shapedCut } from './shapedCut.ts';
import { vernierScale } from './vernier.ts';

/** A station of cross-hairs in an overlap: mm it takes along the strip, half an arm, and its distance from the edge. */
const STATION = 10;
const ARM = 2;
const INSET = 2.6;
const CLEAR = 0.6;
/** mm at either end of the strip that stay free for the cut's tick. */
const TICK_ROOM = 3.2;
/** mm a film needs beyond its art at a seam's ends for tick, station and clearance. */
export const SEAM_MARGIN = TICK_ROOM + STATION + 2 * CLEAR;
/** Narrowest overlap in which two cross-hairs and a scale stand side by side. */
const ROOM_FOR_VERNIER = 2 * (INSET + ARM) + 9.2;

export interface SeamPlan {
  readonly path: readonly (readonly [number, number])[];
  readonly crossings: readonly (readonly [number, number, number])[];
  readonly crossHairs: readonly (readonly [number, number])[];
  /** Film space; the first sheet prints fixed scales, the second moving ones, both print the cross-hairs and cut ticks. */
  readonly first: readonly Shape[];
  readonly second: readonly Shape[];
}

const crossHair = (x: number, y: number): Shape[] => [
  line(MARK_LINE, [x - ARM, y], [x + ARM, y]),
  line(MARK_LINE, [x, y - ARM], [x, y + ARM]),
];

/**
 * What two neighbours share in their overlap: four cross-hairs, a vernier for each axis where there is room, and the cut.
 * Stations stand as near the strip's two ends as blank film allows. `band` in film space.
 */
export function planSeam(
  film: FilmArt,
  films: readonly FilmArt[],
  band: Box,
  runs: 'across' | 'along',
  taken: readonly Box[],
  how: { readonly verniers: boolean; readonly shaped: boolean },
): SeamPlan {
  // Strip space: p along the cut from the band's lower or left end, q across it.
  const toFilm: Affine = runs === 'across' ? [0, 1, 1, 0, band.x, band.y] : [1, 0, 0, 1, band.x, band.y];
  const [length, width] = runs === 'across' ? [band.height, band.width] : [band.width, band.height];
  const boxOf = (p: number, q: number, dp: number, dq: number): Box => {
    const [x, y] = apply(toFilm, p, q);
    return runs === 'across' ? { x, y, width: dq, height: dp } : { x, y, width: dp, height: dq };
  };
  const free = (p: number, q: number, dp: number, dq: number): boolean => {
    const box = boxOf(p - CLEAR, q - CLEAR, dp + 2 * CLEAR, dq + 2 * CLEAR);
    return !taken.some((mark) => meets(mark, box)) && !anyInk(films, box);
  };
  const centres: [number, number][] = [];
  const first: Shape[] = [];
  const second: Shape[] = [];
  const both = (p: number, q: number) => {
    centres.push(apply(toFilm, p, q));
    const shapes = place(crossHair(p, q), toFilm);
    first.push(...shapes);
    second.push(...shapes);
  };
  const wide = width >= ROOM_FOR_VERNIER;
  const pair = width >= 2 * (INSET + ARM) + 1;
  const starts: number[] = [];
  for (let p = TICK_ROOM; p + STATION + TICK_ROOM <= length; p += 0.5) starts.push(p);
  if (length > 2 * (STATION + TICK_ROOM)) starts.push(length - STATION - TICK_ROOM);
  const low = starts.find((p) => free(p, 0, STATION, width));
  const high = starts
    .toReversed()
    .find((p) => free(p, 0, STATION, width) && (low === undefined || p >= low + STATION));
  for (const [start, axis] of [
    [low, 'p'],
    [high, 'q'],
  ] as const) {
    if (start === undefined) continue;
    const middle = start + STATION / 2;
    if (pair) {
      both(middle, INSET);
      both(middle, width - INSET);
    } else {
      both(start + ARM + 0.5, width / 2);
      both(start + STATION - ARM - 0.5, width / 2);
    }
    if (!wide || !how.verniers) continue;
    const at: Affine =
      axis === 'q' ? [0, 1, 1, 0, middle, width / 2 - 0.5] : [1, 0, 0, 1, middle - 0.5, width / 2];
    first.push(...place(place(vernierScale('fixed'), at), toFilm));
    second.push(...place(place(vernierScale('moving'), at), toFilm));
  }
  if (centres.length < 4) {
    // No whole station: single cross-hairs wherever they fit, from both ends inward.
    const small = 2 * ARM;
    const spots: [number, number][] = [];
    for (let p = 0.5; p + small + 0.5 <= length && spots.length < 400; p += 2) {
      for (let q = 0.5; q + small + 0.5 <= width; q += 2) {
        const at: [number, number] = [p + ARM, q + ARM];
        const far = (c: readonly [number, number]) => Math.hypot(c[0] - at[0], c[1] - at[1]) > small + 1;
        if (
          free(p, q, small, small) &&
          spots.every(far) &&
          centres.every((c) => {
            const [x, y] = apply(toFilm, at[0], at[1]);
            return Math.hypot(c[0] - x, c[1] - y) > small + 1;
          })
        )
          spots.push(at);
      }
    }
    for (let i = 0; centres.length < 4 && spots.length > 0; i++) {
      const [p, q] = (i % 2 === 0 ? spots.shift() : spots.pop())!;
      both(p, q);
    }
  }
  const { path, crossings } = bestCut(film, band, runs, how.shaped);
  const shapes = cutShapes(films, path);
  // The second sheet lies on top; what it loses lies left of the path as it runs.
  const lead = path.length > 2 ? wasteDashes(film, path) : [];
  return {
    path,
    crossings,
    crossHairs: centres,
    first: [...first, ...shapes],
    second: [...second, ...shapes, ...lead],
  };
}

/** A shaped cut must save this much crossed ink, mm, or all of it, to be worth following by hand. */
const WORTH = 2;

/** The straight cut, unless a shaped one crosses clearly less ink. */
function bestCut(
  film: FilmArt,
  band: Box,
  runs: 'across' | 'along',
  shaped: boolean,
): Pick<SeamPlan, 'path' | 'crossings'> {
  const straight = straightCut(film, band, runs);
  const crossings = crossingsOf(film, straight);
  const total = (list: readonly (readonly [number, number, number])[]) =>
    list.reduce((sum, one) => sum + one[2], 0);
  if (!shaped || crossings.length === 0) return { path: straight, crossings };
  const path = shapedCut(film, band, runs);
  if (!path) return { path: straight, crossings };
  const fewer = crossingsOf(film, path);
  const saves = fewer.length === 0 || total(fewer) + WORTH < total(crossings);
  return saves ? { path, crossings: fewer } : { path: straight, crossings };
}
