import { walkLanesFast } from './kernels/lanesFast.ts';
import { type LanesWalked, type LaneWalk, walkLanesPlain } from './kernels/lanesPlain.ts';
import { kernels } from './kernels/load.ts';

/**
 * The cheapest way to every lane and slope that begins straight at any lane, by dynamic programming over both. Sums are kept in
 * doubles and added in one order, so that both twins give the same bits.
 */
export function walkLanes(walk: LaneWalk): LanesWalked {
  const fast = kernels();
  return fast ? walkLanesFast(fast, walk) : walkLanesPlain(walk);
}
