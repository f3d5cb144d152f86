import { crop, inkAlong, RUN, surveyInk } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import { overlap } from './bounds.ts';
import type { FilmArt } from './filmArt.ts';
import { type InkPart, startOf } from './inkPart.ts';
import { anyInk, pixelsOf } from './inkSearch.ts';
import { line, type Shape } from './shape.ts';

export type CutPath = readonly (readonly [number, number])[];

/** Hairline of cut ticks, mm: two pixels at 600 dpi. */
const HAIR = 0.09;
/** mm of tick at either end of a cut, and its clearance from ink. */
const TICK = 2.8;
const CLEAR = 0.8;

/** Where a cut crosses ink. Film space mm. */
export interface Crossing {
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  /** mm of ink under the knife. */
  readonly length: number;
  /** Degrees the cut is off square to the ink's edge, at the worse of the two edges: 0 is square, 90 runs along it. */
  readonly slantDeg: number;
}

/** mm: ink shorter than this along a cut, or blank between two pieces of ink, is a pixel's roughness, not a place to touch up. */
export const NOISE = 0.2;
/** mm about an ink's edge within which its direction is felt. */
export const FEEL = 0.5;

/** Steps in which it is, either way. */
const FELT = 4;

/** Degrees between a cut running (dx, dy) and the square to the ink's edge that pulls (gx, gy), `inked` looks having met it; 0 where ink has no edge to tell. */
function slantOf(gx: number, gy: number, inked: number, dx: number, dy: number): number {
  const pull = Math.hypot(gx, gy);
  // A straight edge through the middle pulls with about 1.7 steps a sample; far less is a corner, a dot or a thin line.
  if (inked === 0 || pull < inked * 0.6) return 0;
  return (Math.acos(Math.min(1, Math.abs(gx * dx + gy * dy) / pull)) * 180) / Math.PI;
}

/** A path with a look every half pixel. */
interface Looks {
  readonly path: CutPath;
  /** How many from each corner to the next. */
  readonly counts: Int32Array;
}

/** Where look `n` of a path is, counted from its beginning, and which way the path runs there. */
function lookAt({ path, counts }: Looks, n: number): { x: number; y: number; dx: number; dy: number } {
  let i = 0;
  let s = n;
  while (s >= counts[i]!) s -= counts[i++]!;
  const [x0, y0] = path[i]!;
  const [x1, y1] = path[i + 1]!;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const steps = counts[i]!;
  return {
    x: x0 + ((x1 - x0) * (s + 0.5)) / steps,
    y: y0 + ((y1 - y0) * (s + 0.5)) / steps,
    dx: (x1 - x0) / length,
    dy: (y1 - y0) / length,
  };
}

/** Ink along a path, found at half-pixel steps; pieces a hair apart count as one, and a mere hair not at all. */
export function inkCrossings(film: InkPart, path: CutPath): Crossing[] {
  const step = 12.7 / film.dpi;
  const counts = new Int32Array(path.length - 1);
  for (let i = 0; i < counts.length; i++) {
    const [[x0, y0], [x1, y1]] = [path[i]!, path[i + 1]!];
    counts[i] = Math.max(1, Math.round(Math.hypot(x1 - x0, y1 - y0) / step));
  }
  const runs = inkAlong(film.mask, {
    ...startOf(film),
    left: film.box.x,
    top: film.box.y + film.box.height,
    scale: film.dpi / 25.4,
    corners: Float64Array.from(path.flat()),
    looks: counts,
    feel: FEEL,
    reach: FELT,
  });
  const out: Crossing[] = [];
  for (let at = 0; at < runs.length; ) {
    const first = at;
    let inked = 0;
    let last = at;
    do {
      last = at;
      inked += runs[at + 1]! - runs[at]!;
      at += RUN;
    } while (at < runs.length && (runs[at]! - runs[last + 1]!) * step < NOISE);
    if (inked * step < NOISE) continue;
    const a = lookAt({ path, counts }, runs[first]!);
    const b = lookAt({ path, counts }, runs[last + 1]! - 1);
    const slantDeg = Math.max(
      slantOf(runs[first + 2]!, runs[first + 3]!, runs[first + 4]!, a.dx, a.dy),
      slantOf(runs[last + 5]!, runs[last + 6]!, runs[last + 7]!, b.dx, b.dy),
    );
    out.push({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, length: inked * step, slantDeg });
  }
  return out;
}

/** Ink a straight cut at every pixel across the band would meet, in pixels. */
function inkAcross(film: InkPart, band: Box, runs: 'across' | 'along'): Int32Array {
  const { x0, y0, x1, y1 } = pixelsOf(film, band);
  const { x, y } = startOf(film);
  const survey = surveyInk(crop(film.mask, x0 - x, y0 - y, x1 - x0, y1 - y0), 1);
  return runs === 'across' ? survey.columns : survey.rows;
}

/**
 * The straight cut through a band that meets least ink; among equals the one furthest from ink, then nearest the middle.
 * From the band's lower (or left) end to the other; film space mm. It keeps a tenth of the band from the band's edges.
 */
export function straightCut(film: InkPart, band: Box, runs: 'across' | 'along'): CutPath {
  const ink = inkAcross(film, band, runs);
  const n = ink.length;
  const keep = Math.floor(n / 10);
  // Distance in pixels to the nearest line that has more ink than this one, both ways.
  const room = new Float64Array(n).fill(n);
  for (let i = 1; i < n; i++)
    if (ink[i - 1]! > 0) room[i] = 1;
    else room[i] = Math.min(n, room[i - 1]! + 1);
  for (let i = n - 2; i >= 0; i--) room[i] = Math.min(room[i]!, ink[i + 1]! > 0 ? 1 : room[i + 1]! + 1);
  const most = (1.5 * film.dpi) / 25.4;
  let best = n >> 1;
  let bestCost = Infinity;
  for (let i = keep; i < n - keep; i++) {
    const centre = Math.abs(i - n / 2) / n;
    const cost = ink[i]! * 1000 + (most - Math.min(most, room[i]!)) + centre;
    if (cost < bestCost) {
      bestCost = cost;
      best = i;
    }
  }
  const mm = ((best + 0.5) * 25.4) / film.dpi;
  if (runs === 'across') {
    const u = band.x + mm;
    return [
      [u, band.y],
      [u, band.y + band.height],
    ];
  }
  const v = band.y + band.height - mm;
  return [
    [band.x, v],
    [band.x + band.width, v],
  ];
}

/**
 * Cut ticks: hairlines at either end of a path, in the margin only, ending before any ink of the face and any of the
 * `marks`, so that nothing of a cut can burn among the art. A straight edge laid from tick to tick gives the cut.
 */
export function cutShapes(films: readonly FilmArt[], path: CutPath, marks: readonly Box[] = []): Shape[] {
  const shapes: Shape[] = [];
  const tick = (from: readonly [number, number], to: readonly [number, number]) => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
    let reach = 0;
    while (reach < TICK && reach + CLEAR < length) {
      const [x, y] = [from[0] + dx * (reach + 0.5), from[1] + dy * (reach + 0.5)];
      const about = { x: x - CLEAR, y: y - CLEAR, width: 2 * CLEAR, height: 2 * CLEAR };
      if (anyInk(films, about) || marks.some((mark) => overlap(mark, about))) break;
      reach += 0.5;
    }
    if (reach >= 0.5) shapes.push(line(HAIR, from, [from[0] + dx * reach, from[1] + dy * reach]));
  };
  tick(path[0]!, path[1]!);
  tick(path.at(-1)!, path.at(-2)!);
  return shapes;
}

/** Dashes that lead the knife along a shaped cut: mm drawn, mm left out, and how far into the waste they stand. */
const DASH = 3;
const ASIDE = 0.6;

/** mm that a cut's lines keep from marks and from one another. */
const APART = 0.4;

/**
 * The guide line of a shaped cut on the upper sheet: dashes beside the path, left of it as it runs, in the
 * strip that falls away, none within 0.4 mm of ink or of a `mark`, nor beside the ticks at the path's ends. Nothing of it
 * stays on the film after the cut. Film space mm.
 */
export function wasteDashes(film: FilmArt, path: CutPath, marks: readonly Box[] = []): Shape[] {
  const shapes: Shape[] = [];
  const whole = path.reduce((sum, [x, y], i) => {
    const [x0, y0] = path[Math.max(0, i - 1)]!;
    return sum + Math.hypot(x - x0, y - y0);
  }, 0);
  let walked = 0;
  let run: [number, number][] = [];
  const close = () => {
    if (run.length > 1) shapes.push(line(HAIR, ...run));
    run = [];
  };
  for (let i = 1; i < path.length; i++) {
    const [x0, y0] = path[i - 1]!;
    const [x1, y1] = path[i]!;
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [dx, dy] = [(x1 - x0) / length, (y1 - y0) / length];
    for (let at = 0; at < length; at += 0.5) {
      const x = x0 + dx * at - dy * ASIDE;
      const y = y0 + dy * at + dx * ASIDE;
      const far = Math.min(walked + at, whole - walked - at);
      const drawn = Math.floor((walked + at) / DASH) % 2 === 0 && far > TICK + APART;
      const about = { x: x - 0.45, y: y - 0.45, width: 0.9, height: 0.9 };
      if (drawn && !anyInk([film], about) && !marks.some((mark) => overlap(mark, about))) run.push([x, y]);
      else close();
    }
    walked += length;
  }
  close();
  return shapes;
}
