import type { FilmManifest } from '../../core/film/index.ts';
import type { Bits } from './filmPages.ts';

type Film = FilmManifest['films'][number];
type Point = readonly [x: number, y: number];

/** A cut as a stranger finds it in films.json and the film's picture, by rules written here once more. */
export interface CutFound {
  readonly pages: readonly [number, number];
  /** mm of ink under the path, and under the best straight cut of the same strip that keeps a tenth from its edges. */
  readonly crossed: number;
  readonly straight: number;
  /** Tightest bend, mm; Infinity for a straight cut. */
  readonly bend: number;
  /** Does any path a knife can follow keep `CLEAR` from all ink? */
  readonly blank: boolean;
}

/** mm a path must keep from ink to count as blank for sure: more than the eighths of a millimetre that cuts are planned in. */
const CLEAR = 0.2;
/** A knife's rules: mm a step, between places aside, from the strip's edges; steps of slope at most, and of turning. */
const [STEP, LANE, EDGE, STEEPEST, SHARPEST] = [2, 0.25, 1, 8, 2];

/** The strip two sheets share as pixels of the film: every one inked that lies within `CLEAR` of ink. */
function stripOf(mask: Bits, x0: number, x1: number, reach: number): Bits {
  const [width, height] = [x1 - x0, mask.height];
  const wide = { width, height, at: new Uint8Array(width * height) };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let inked = 0;
      for (let i = Math.max(0, x0 + x - reach); i <= Math.min(mask.width - 1, x0 + x + reach) && !inked; i++)
        inked = mask.at[y * mask.width + i]!;
      wide.at[y * width + x] = inked;
    }
  const both = { width, height, at: new Uint8Array(width * height) };
  for (let y = 0; y < height; y++)
    for (let j = Math.max(0, y - reach); j <= Math.min(height - 1, y + reach); j++)
      for (let x = 0; x < width; x++) both.at[y * width + x]! |= wide.at[j * width + x]!;
  return both;
}

/** Is there a way over blank from the strip's upper edge to its lower one? Place and slope, walked step by step. */
function blankWay(strip: Bits, scale: number): boolean {
  const [wide, long] = [strip.width / scale, strip.height / scale];
  const steps = Math.max(1, Math.round(long / STEP));
  const step = long / steps;
  const [first, last] = [Math.ceil(EDGE / LANE), Math.floor((wide - EDGE) / LANE)];
  const slopes = 2 * STEEPEST + 1;
  const clear = (i: number, lane: number, slope: number): boolean => {
    const looks = Math.ceil(step * scale);
    for (let k = 0; k < looks; k++) {
      const t = (k + 0.5) / looks;
      const y = Math.min(strip.height - 1, Math.floor((i + t) * step * scale));
      if (strip.at[y * strip.width + Math.floor((lane + slope * t) * LANE * scale)] === 1) return false;
    }
    return true;
  };
  let here = new Set<number>();
  for (let lane = first; lane <= last; lane++) here.add(lane * slopes + STEEPEST);
  for (let i = 0; i < steps && here.size > 0; i++) {
    const tried = new Map<number, boolean>();
    const next = new Set<number>();
    for (const state of here) {
      const [lane, was] = [Math.floor(state / slopes), (state % slopes) - STEEPEST];
      for (let s = Math.max(-STEEPEST, was - SHARPEST); s <= Math.min(STEEPEST, was + SHARPEST); s++) {
        if (lane + s < first || lane + s > last) continue;
        const key = lane * slopes + s + STEEPEST;
        const free = tried.get(key) ?? clear(i, lane, s);
        tried.set(key, free);
        if (free) next.add((lane + s) * slopes + s + STEEPEST);
      }
    }
    here = next;
  }
  return [...here].some((state) => state % slopes === STEEPEST);
}

/** Radius of the arc that rounds a corner from the middle of its shorter side. */
function bendAt(p: Point, q: Point, r: Point): number {
  const [a, b] = [
    [q[0] - p[0], q[1] - p[1]],
    [r[0] - q[0], r[1] - q[1]],
  ] as const;
  const turn = Math.abs(Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]));
  return Math.min(Math.hypot(...a), Math.hypot(...b)) / 2 / Math.tan(turn / 2);
}

/** Every cut across a film, once. `mask` is the film's own picture: it covers the box, row 0 at the top. */
export function cutsFound(film: Film, mask: Bits, dpi: number): CutFound[] {
  const scale = dpi / 25.4;
  const top = film.box.y + film.box.height;
  const crossed = (path: readonly Point[]): number => {
    let mm = 0;
    for (let i = 1; i < path.length; i++) {
      const [[x0, y0], [x1, y1]] = [path[i - 1]!, path[i]!];
      const long = Math.hypot(x1 - x0, y1 - y0);
      const looks = Math.ceil(long / 0.05);
      for (let k = 0; k < looks; k++) {
        const t = (k + 0.5) / looks;
        const x = Math.floor((x0 + (x1 - x0) * t - film.box.x) * scale);
        const y = Math.floor((top - y0 - (y1 - y0) * t) * scale);
        if (x >= 0 && y >= 0 && x < mask.width && y < mask.height && mask.at[y * mask.width + x] === 1)
          mm += long / looks;
      }
    }
    return mm;
  };
  return film.sheets.flatMap((sheet) =>
    sheet.cuts
      .filter((cut) => cut.with > sheet.page)
      .map((cut): CutFound => {
        const other = film.sheets.find((one) => one.page === cut.with)!.window;
        const { window } = sheet;
        const [low, high] = [
          Math.max(window.x, other.x),
          Math.min(window.x + window.width, other.x + other.width),
        ];
        const path = cut.path as readonly Point[];
        const keep = (high - low) / 10;
        let straight = Infinity;
        for (let u = low + keep + 0.5 / scale; u < high - keep; u += 1 / scale)
          straight = Math.min(
            straight,
            crossed([
              [u, window.y],
              [u, window.y + window.height],
            ]),
          );
        const [x0, x1] = [low, high].map((u) => Math.round((u - film.box.x) * scale)) as [number, number];
        const bends = path.slice(2).map((r, i) => bendAt(path[i]!, path[i + 1]!, r));
        return {
          pages: [sheet.page, cut.with],
          crossed: crossed(path),
          straight,
          bend: Math.min(Infinity, ...bends),
          blank: blankWay(stripOf(mask, x0, x1, Math.ceil(CLEAR * scale)), scale),
        };
      }),
  );
}
