import type { Box } from '../units/index.ts';
import type { CutPath } from './cut.ts';
import type { FilmArt } from './filmArt.ts';

/** A band as costs a mm: `p` runs along the cut, `q` across the band; `cell` mm a value. */
export interface CutCosts {
  readonly rows: number;
  readonly columns: number;
  readonly cell: number;
  /** rows × columns. */
  readonly cost: Float32Array;
}

/** mm between the path's corners along the cut, and between the places it may take across. */
const STEP = 2;
const LANE = 0.25;
/**
 * Lanes a path may move a step: 45° at most. From one step to the next its slope changes by two lanes at most, a turn of
 * no more than 14° every 2 mm, which is the bend of an 8 mm radius; scissors and knife follow that by hand (common
 * practice, no source).
 */
const STEEPEST = 8;
const SHARPEST = 2;
/** mm a path keeps from the band's long edges, so that both sheets have film on either side of the knife. */
const EDGE = 1;
/** Price of a mm: clear of ink, blank but close to ink, solid ink, ink at an edge; and of each lane of turning. */
export const CUT_PRICES = { blank: 0.02, close: 4, solid: 10, edge: 12, turn: 0.01 } as const;
/** mm that count as close. */
const CLOSE = 0.5;

/** Costs of a band of one film, at an eighth of a millimetre or a pixel, whichever is coarser. */
export function cutCosts(film: FilmArt, band: Box, runs: 'across' | 'along'): CutCosts {
  const across = runs === 'across';
  const cell = Math.max(0.125, 25.4 / film.dpi);
  const rows = Math.max(1, Math.round((across ? band.height : band.width) / cell));
  const columns = Math.max(1, Math.round((across ? band.width : band.height) / cell));
  const ink = new Uint8Array(rows * columns);
  const scale = film.dpi / 25.4;
  const { mask } = film;
  const top = film.box.y + film.box.height;
  const x0 = Math.max(0, Math.floor((band.x - film.box.x) * scale));
  const x1 = Math.min(mask.width as number, Math.ceil((band.x + band.width - film.box.x) * scale));
  const y0 = Math.max(0, Math.floor((top - band.y - band.height) * scale));
  const y1 = Math.min(mask.height as number, Math.ceil((top - band.y) * scale));
  for (let y = y0; y < y1; y++) {
    const v = top - (y + 0.5) / scale - band.y;
    for (let x = x0; x < x1; x++) {
      const word = mask.data[y * mask.stride + (x >> 5)]!;
      if (word === 0) {
        x |= 31;
        continue;
      }
      if (((word >>> (x & 31)) & 1) === 0) continue;
      const u = film.box.x + (x + 0.5) / scale - band.x;
      const p = Math.floor((across ? v : u) / cell);
      const q = Math.floor((across ? u : v) / cell);
      if (p >= 0 && p < rows && q >= 0 && q < columns) ink[p * columns + q] = 1;
    }
  }
  const reach = Math.max(1, Math.round(CLOSE / cell));
  const cost = new Float32Array(rows * columns);
  for (let p = 0; p < rows; p++) {
    for (let q = 0; q < columns; q++) {
      const here = ink[p * columns + q]!;
      let mixed = false;
      for (let d = -reach; d <= reach && !mixed; d++) {
        const [pp, qq] = [Math.min(rows - 1, Math.max(0, p + d)), Math.min(columns - 1, Math.max(0, q + d))];
        mixed = ink[pp * columns + q] !== here || ink[p * columns + qq] !== here;
      }
      const { blank, close, solid, edge } = CUT_PRICES;
      cost[p * columns + q] = here === 1 ? (mixed ? edge : solid) : mixed ? close : blank;
    }
  }
  return { rows, columns, cell, cost };
}

/**
 * The cheapest path through a band, from p = 0 to its far end: lane (in quarter millimetres from the band's edge) at every
 * step. Exact over all paths that begin and end straight, never lean more than 45° and never bend tighter than 8 mm, by
 * dynamic programming over lane and slope. Null where the band is too narrow for one.
 */
export function cheapestLanes(
  costs: CutCosts,
): { readonly lanes: readonly number[]; readonly step: number; readonly cost: number } | null {
  const long = costs.rows * costs.cell;
  const wide = costs.columns * costs.cell;
  const steps = Math.max(1, Math.round(long / STEP));
  const step = long / steps;
  const first = Math.ceil(EDGE / LANE);
  const last = Math.floor((wide - EDGE) / LANE);
  const lanes = last - first + 1;
  if (lanes < 1) return null;
  const slopes = 2 * STEEPEST + 1;
  const samples = Math.max(2, Math.ceil(step / costs.cell));
  const edgeCost = (i: number, lane: number, slope: number): number => {
    let sum = 0;
    for (let s = 0; s < samples; s++) {
      const t = (s + 0.5) / samples;
      const p = Math.min(costs.rows - 1, Math.floor(((i + t) * step) / costs.cell));
      const q = Math.min(costs.columns - 1, Math.floor(((lane + slope * t) * LANE) / costs.cell));
      sum += costs.cost[p * costs.columns + q]!;
    }
    return (sum / samples) * Math.hypot(step, slope * LANE);
  };
  // best[lane, slope]: cheapest way to stand at `lane` having come with `slope`.
  let best = new Float64Array(lanes * slopes).fill(Infinity);
  for (let l = 0; l < lanes; l++) best[l * slopes + STEEPEST] = 0;
  const from: Int8Array[] = [];
  for (let i = 0; i < steps; i++) {
    const next = new Float64Array(lanes * slopes).fill(Infinity);
    const back = new Int8Array(lanes * slopes);
    for (let l = 0; l < lanes; l++) {
      for (let s = 0; s < slopes; s++) {
        const to = l + s - STEEPEST;
        if (to < 0 || to >= lanes) continue;
        let least = Infinity;
        let came = 0;
        for (let turn = -SHARPEST; turn <= SHARPEST; turn++) {
          const before = s + turn;
          if (before < 0 || before >= slopes) continue;
          const cost = best[l * slopes + before]! + CUT_PRICES.turn * Math.abs(turn);
          if (cost < least) [least, came] = [cost, before];
        }
        if (least === Infinity) continue;
        const total = least + edgeCost(i, l + first, s - STEEPEST);
        if (total < next[to * slopes + s]!) {
          next[to * slopes + s] = total;
          back[to * slopes + s] = came;
        }
      }
    }
    from.push(back);
    best = next;
  }
  let lane = -1;
  let least = Infinity;
  for (let l = 0; l < lanes; l++) {
    // Among equals the lane nearest the middle.
    const cost = best[l * slopes + STEEPEST]! + (1e-6 * Math.abs(l - lanes / 2)) / lanes;
    if (cost < least) [least, lane] = [cost, l];
  }
  if (lane < 0) return null;
  const total = best[lane * slopes + STEEPEST]!;
  const out = [lane + first];
  let slope = STEEPEST;
  for (let i = steps - 1; i >= 0; i--) {
    const came = from[i]![lane * slopes + slope]!;
    lane -= slope - STEEPEST;
    slope = came;
    out.unshift(lane + first);
  }
  return { lanes: out, step, cost: total };
}

/** The shaped cut of a band in film space, corners on straight runs left out; null where no path fits. */
export function shapedCut(film: FilmArt, band: Box, runs: 'across' | 'along'): CutPath | null {
  const found = cheapestLanes(cutCosts(film, band, runs));
  if (!found) return null;
  const { lanes, step } = found;
  const path: (readonly [number, number])[] = [];
  for (const [i, lane] of lanes.entries()) {
    const [before, after] = [lanes[i - 1], lanes[i + 1]];
    if (before !== undefined && after !== undefined && lane - before === after - lane) continue;
    const [p, q] = [i * step, lane * LANE];
    path.push(runs === 'across' ? [band.x + q, band.y + p] : [band.x + p, band.y + q]);
  }
  return path;
}
