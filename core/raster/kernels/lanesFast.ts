import type { LanesWalked, LaneWalk } from './lanesPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of `walkLanesPlain`. */
export function walkLanesFast(kernels: Kernels, walk: LaneWalk): LanesWalked {
  const { columns, codes, lanes, steps, samples, steepest } = walk;
  const states = lanes * (2 * steepest + 1);
  const rows = codes.length / columns;
  const scratch = new Scratch();
  const codesAt = scratch.take(codes.length);
  const flatAt = scratch.take(rows);
  const placesAt = scratch.take(walk.places.byteLength);
  const offsetsAt = scratch.take(walk.offsets.byteLength);
  const pricesAt = scratch.take(walk.prices.byteLength);
  const edgeAt = scratch.take(states * 8);
  let [bestAt, nextAt] = [scratch.take(states * 8), scratch.take(states * 8)];
  const cameAt = scratch.take(steps * states);
  scratch.reserve(kernels);
  const { buffer } = kernels.memory;
  const bytes = new Uint8Array(buffer);
  const doubles = new Float64Array(buffer);
  bytes.set(codes, codesAt);
  new Int32Array(buffer).set(walk.places, placesAt >> 2);
  new Int32Array(buffer).set(walk.offsets, offsetsAt >> 2);
  doubles.set(walk.prices, pricesAt >> 3);
  doubles.fill(Infinity, bestAt >> 3, (bestAt >> 3) + states);
  doubles.fill(0, (bestAt >> 3) + steepest * lanes, (bestAt >> 3) + (steepest + 1) * lanes);
  bytes.fill(0, cameAt, cameAt + steps * states);
  kernels.flatRows(codesAt, columns, rows, flatAt);
  for (let i = 0; i < steps; i++) {
    kernels.laneEdges(
      codesAt,
      flatAt,
      columns,
      lanes,
      walk.laneCells,
      walk.firstCell,
      placesAt + 4 * i * samples,
      offsetsAt,
      samples,
      steepest,
      pricesAt,
      walk.kinds,
      edgeAt,
    );
    kernels.laneStep(lanes, steepest, walk.sharpest, walk.turn, edgeAt, bestAt, nextAt, cameAt + i * states);
    [bestAt, nextAt] = [nextAt, bestAt];
  }
  return {
    best: doubles.slice(bestAt >> 3, (bestAt >> 3) + states),
    came: new Int8Array(buffer).slice(cameAt, cameAt + steps * states),
  };
}
