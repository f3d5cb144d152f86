import { blankWayPlain } from './kernels/blankWayPlain.ts';
import { INKED } from './kernels/edgesPlain.ts';
import { kernels, Scratch } from './kernels/load.ts';

/**
 * Do cells without ink, of codes by `feelEdges`, lead from a picture's first row to its last, each beside the one before or next to that? Far sooner
 * told than the best way is found.
 */
export function blankWay(codes: Uint8Array, columns: number): boolean {
  const fast = kernels();
  if (!fast) return blankWayPlain(codes, columns);
  const scratch = new Scratch();
  const codesAt = scratch.take(codes.length + 16);
  const [comeAt, nextAt] = [scratch.take(columns + 32), scratch.take(columns + 32)];
  scratch.reserve(fast);
  new Uint8Array(fast.memory.buffer).set(codes, codesAt);
  return fast.blankWay(codesAt, columns, codes.length / columns, INKED, comeAt, nextAt) === 1;
}
