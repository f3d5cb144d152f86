import { INKED } from './edgesPlain.ts';

/** The readable definition of `blankWay`. */
export function blankWayPlain(codes: Uint8Array, columns: number): boolean {
  let come = new Uint8Array(columns + 2).fill(1);
  let next = new Uint8Array(columns + 2);
  for (let row = 0; row < codes.length; row += columns) {
    let any = 0;
    next.fill(0);
    for (let q = 0; q < columns; q++) {
      if ((codes[row + q]! & INKED) !== 0) continue;
      const reached = come[q]! | come[q + 1]! | come[q + 2]!;
      next[q + 1] = reached;
      any |= reached;
    }
    if (any === 0) return false;
    [come, next] = [next, come];
  }
  return true;
}
