import { blankWay, FACING, walkLanes } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { CutPath } from './cut.ts';
import { CUT_PRICES, type CutBand, FACINGS, LANE, MISS_PRICES, pricesByKind } from './cutCosts.ts';

/** mm between the path's corners along the cut. */
const STEP = 2;
/**
 * Lanes a path may move a step: 45° at most. From one step to the next its slope changes by two lanes at most, a turn of
 * no more than 14° every 2 mm, which is the bend of an 8 mm radius; scissors and knife follow that by hand (common
 * practice, no source).
 */
const STEEPEST = 8;
const SHARPEST = 2;
/** mm a path keeps from the band's long edges, so that both sheets have film on either side of the knife. */
const EDGE = 1;
/** Codes of a band's values: four kinds, by the way an edge faces or none. */
const KINDS = FACING * (FACINGS + 1);

/** What a look costs by the path's slope and the code it meets: the mm it stands for, and more for not crossing an edge square. */
function lookPrices(step: number, samples: number, byKind: Float32Array): Float64Array {
  const out = new Float64Array((2 * STEEPEST + 1) * KINDS);
  for (let slope = -STEEPEST; slope <= STEEPEST; slope++) {
    const weight = Math.hypot(step, slope * LANE) / samples;
    const runs = Math.atan2(slope * LANE, step);
    for (let f = 0; f <= FACINGS; f++) {
      const off = f === 0 ? 0 : Math.sin(runs - ((f - 1) * Math.PI) / FACINGS);
      const factor = 1 + CUT_PRICES.aslant * off * off;
      const at = (slope + STEEPEST) * KINDS + f * FACING;
      for (let kind = 0; kind < FACING; kind++) out[at + kind] = byKind[kind]! * factor * weight;
    }
  }
  return out;
}

/**
 * The cheapest path through a band, from p = 0 to its far end: lane (in quarter millimetres from the band's edge) at every
 * step. Exact over all paths that begin and end straight, never lean more than 45° and never bend tighter than 8 mm, by
 * dynamic programming over lane and slope. Null where the band is too narrow for one.
 */
export function cheapestLanes(
  costs: CutBand,
  byKind: Float32Array,
): {
  readonly lanes: readonly number[];
  readonly step: number;
  readonly cost: number;
} | null {
  const long = costs.rows * costs.cell;
  const wide = costs.columns * costs.cell;
  const steps = Math.max(1, Math.round(long / STEP));
  const step = long / steps;
  const first = Math.ceil(EDGE / LANE);
  const last = Math.floor((wide - EDGE) / LANE);
  const lanes = last - first + 1;
  if (lanes < 1) return null;
  const slopes = 2 * STEEPEST + 1;
  // Ink is felt half a millimetre off, so a look every quarter misses no line.
  const samples = Math.max(2, Math.ceil(step / Math.max(costs.cell, LANE)));
  // Where a sample of a step lies from its lane's own place, in cells: the same for every lane, as lanes lie on whole cells.
  const laneCells = Math.round(LANE / costs.cell);
  const offsets = new Int32Array(slopes * samples);
  for (let s = 0; s < slopes; s++) {
    for (let k = 0; k < samples; k++) {
      const aside = (s - STEEPEST) * ((k + 0.5) / samples) * laneCells;
      offsets[s * samples + k] = Math.floor(aside);
    }
  }
  const places = new Int32Array(steps * samples);
  for (let i = 0; i < steps; i++) {
    for (let k = 0; k < samples; k++)
      places[i * samples + k] = Math.min(
        costs.rows - 1,
        Math.floor(((i + (k + 0.5) / samples) * step) / costs.cell),
      );
  }
  const { best, came } = walkLanes({
    columns: costs.columns,
    codes: costs.codes,
    lanes,
    laneCells,
    firstCell: first * laneCells,
    steps,
    samples,
    places,
    offsets,
    steepest: STEEPEST,
    sharpest: SHARPEST,
    turn: CUT_PRICES.turn,
    prices: lookPrices(step, samples, byKind),
    kinds: KINDS,
  });
  let lane = -1;
  let cheapest = Infinity;
  for (let l = 0; l < lanes; l++) {
    // Among equals the lane nearest the middle.
    const cost = best[STEEPEST * lanes + l]! + (1e-6 * Math.abs(l - lanes / 2)) / lanes;
    if (cost < cheapest) [cheapest, lane] = [cost, l];
  }
  if (lane < 0) return null;
  const total = best[STEEPEST * lanes + lane]!;
  const out = [lane + first];
  let slope = STEEPEST;
  for (let i = steps - 1; i >= 0; i--) {
    const before = came[(i * slopes + slope) * lanes + lane]!;
    lane -= slope - STEEPEST;
    slope = before;
    out.unshift(lane + first);
  }
  return { lanes: out, step, cost: total };
}

/** The shaped cut of a band in film space, corners on straight runs left out; null where no path fits. */
export function shapedCut(of: CutBand, band: Box, runs: 'across' | 'along'): CutPath | null {
  const found = cheapestLanes(of, pricesByKind(CUT_PRICES));
  return found && lanesToPath(found, band, runs);
}

/** A shaped cut that crosses no ink at all, however long, narrow and winding; null where the band has none. */
export function blankCut(of: CutBand, band: Box, runs: 'across' | 'along'): CutPath | null {
  const found = blankWay(of.codes, of.columns) ? cheapestLanes(of, pricesByKind(MISS_PRICES)) : null;
  return found && found.cost < MISS_PRICES.solid * of.cell ? lanesToPath(found, band, runs) : null;
}

/** Lanes at every step as a path in film space, corners on straight runs left out. */
function lanesToPath(
  { lanes, step }: { readonly lanes: readonly number[]; readonly step: number },
  band: Box,
  runs: 'across' | 'along',
): CutPath {
  const path: (readonly [number, number])[] = [];
  for (const [i, lane] of lanes.entries()) {
    const [before, after] = [lanes[i - 1], lanes[i + 1]];
    if (before !== undefined && after !== undefined && lane - before === after - lane) continue;
    // The band's own end, which need not lie on a whole cell.
    const p = after === undefined ? (runs === 'across' ? band.height : band.width) : i * step;
    const q = lane * LANE;
    path.push(runs === 'across' ? [band.x + q, band.y + p] : [band.x + p, band.y + q]);
  }
  return path;
}
