import { getBit, type Mask } from '../mask.ts';

/** A path over a raster of which a mask is a part; lengths in any unit, y up. */
export interface PathOverInk {
  /** The raster's left and upper edge, and its pixels a unit. */
  readonly left: number;
  readonly top: number;
  readonly scale: number;
  /** The mask's first pixel in the raster. */
  readonly x: number;
  readonly y: number;
  /** Its corners, x and y in turn, and how many looks are taken, evenly spread, from each to the next. */
  readonly corners: Float64Array;
  readonly looks: Int32Array;
  /** How far about a place its ink's pull is felt, and in how many steps either way. */
  readonly feel: number;
  readonly reach: number;
}

/** Words of a run of ink: its first look and one past its last, counted along the whole path; and of the ink about either place its pull along x and y in steps, and how many looks met it. */
export const RUN = 8;

/** The readable definition of `inkAlong`. */
export function inkAlongPlain(mask: Mask, path: PathOverInk): Int32Array {
  const { left, top, scale, corners, looks, feel, reach } = path;
  const inkAt = (x: number, y: number): boolean =>
    getBit(mask, Math.floor((x - left) * scale) - path.x, Math.floor((top - y) * scale) - path.y);
  const pullAt = (x: number, y: number): [number, number, number] => {
    let [gx, gy, inked] = [0, 0, 0];
    for (let j = -reach; j <= reach; j++)
      for (let i = -reach; i <= reach; i++) {
        if (i * i + j * j > reach * reach) continue;
        if (!inkAt(x + (i * feel) / reach, y + (j * feel) / reach)) continue;
        [gx, gy, inked] = [gx + i, gy + j, inked + 1];
      }
    return [gx, gy, inked];
  };
  const out: number[] = [];
  let look = 0;
  let last: [number, number] | null = null;
  const close = () => {
    if (last) out.push(look, ...pullAt(...last));
    last = null;
  };
  // A run is written as it is found: its end stands behind the pull of its beginning until it is put in order.
  for (let i = 0; i < looks.length; i++) {
    const [x0, y0, x1, y1] = corners.subarray(2 * i, 2 * i + 4) as unknown as [
      number,
      number,
      number,
      number,
    ];
    const steps = looks[i]!;
    for (let s = 0; s < steps; s++, look++) {
      const x = x0 + ((x1 - x0) * (s + 0.5)) / steps;
      const y = y0 + ((y1 - y0) * (s + 0.5)) / steps;
      if (!inkAt(x, y)) {
        close();
        continue;
      }
      if (!last) out.push(look, ...pullAt(x, y));
      last = [x, y];
    }
  }
  close();
  const runs = Int32Array.from(out);
  for (let at = 0; at < runs.length; at += RUN) {
    const end = runs[at + 4]!;
    runs.copyWithin(at + 2, at + 1, at + 4);
    runs[at + 1] = end;
  }
  return runs;
}
