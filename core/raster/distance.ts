import type { Px } from '../units/index.ts';
import type { Band } from './band.ts';
import { distanceFast, FARTHEST_LIMIT } from './kernels/distanceFast.ts';
import { kernels } from './kernels/load.ts';
import { type Mask, signedWords } from './mask.ts';

/**
 * For each point of a band of rows the squared distance, in points, from its centre to the centre of the nearest bare
 * point (0 where the point itself is bare), exact, and `limitPx`² where it is farther than that. Outside the mask
 * counts as bare. One number a point, rows × width, in `out` when given.
 *
 * First down the columns, then along each row the lower envelope of the parabolas x ↦ (x − q)² + g(q)².
 * (A. Meijster, J. Roerdink, W. Hesselink, "A general algorithm for computing distance transforms in linear time",
 * 2000; P. Felzenszwalb, D. Huttenlocher, "Distance transforms of sampled functions", 2012.) Whole numbers throughout.
 */
export function distanceSquared(
  mask: Mask,
  band: Band,
  limitPx: Px,
  out: Uint32Array = new Uint32Array(band.rows * mask.width),
): Uint32Array {
  const reach = Math.ceil(limitPx);
  if (!(reach >= 0) || reach > 30000)
    throw new RangeError(`The distance limit must lie between 0 and 30000 points, but is ${limitPx}.`);
  // A band may be asked for that reaches beyond the mask: bare there.
  const inside = band.y >= 0 && band.y + band.rows <= mask.height && mask.width > 0 && band.rows > 0;
  const fast = inside && limitPx <= FARTHEST_LIMIT ? kernels() : null;
  if (fast) distanceFast(fast, mask, band, limitPx, out);
  else distancePlain(mask, band, limitPx, out);
  return out;
}

/** The readable definition of `distanceSquared`. */
export function distancePlain(mask: Mask, band: Band, limitPx: Px, out: Uint32Array): void {
  const { width, height, stride } = mask;
  const { y: first, rows } = band;
  const reach = Math.ceil(limitPx);
  const far = Math.floor(limitPx * limitPx + 1e-9);
  const words = signedWords(mask);
  // Bare points to the nearest bare row above, kept while walking down; then the same from below.
  const up = new Int32Array(width);
  const column = new Int32Array(rows * width);
  const step = (y: number) => {
    for (let x = 0; x < width; x++) {
      const ink = y >= 0 && y < height && ((words[y * stride + (x >>> 5)]! >>> (x & 31)) & 1) === 1;
      const next = up[x]! + 1;
      up[x] = ink ? Math.min(next, reach + 1) : 0;
    }
  };
  for (let y = first - reach - 1; y < first + rows; y++) {
    step(y);
    if (y >= first) column.set(up, (y - first) * width);
  }
  up.fill(0);
  for (let y = first + rows + reach; y >= first; y--) {
    step(y);
    if (y >= first + rows) continue;
    const at = (y - first) * width;
    for (let x = 0; x < width; x++) if (up[x]! < column[at + x]!) column[at + x] = up[x]!;
  }
  // The envelope of a row; places −1 and width are the bare borders. `g2` holds the columns' squared distances, from −1 on.
  const places = new Int32Array(width + 2);
  const starts = new Int32Array(width + 2);
  const g2 = new Int32Array(width + 2);
  for (let row = 0; row < rows; row++) {
    const at = row * width;
    for (let x = 0; x < width; x++) g2[x + 1] = column[at + x]! * column[at + x]!;
    let top = 0;
    places[0] = -1;
    starts[0] = -1;
    for (let q = 0; q <= width; q++) {
      const own = g2[q + 1]!;
      for (;;) {
        const p = places[top]!;
        const gained = own - g2[p + 1]! + (q - p) * (q + p);
        // First x at which q is strictly nearer than p: ⌊(q² + g(q)² − p² − g(p)²) / 2(q − p)⌋ + 1.
        const meets = q - p === 1 ? (gained >> 1) + 1 : Math.floor(gained / (2 * (q - p))) + 1;
        if (meets <= starts[top]! && top > 0) {
          top--;
          continue;
        }
        if (meets <= width) {
          top++;
          places[top] = q;
          starts[top] = meets;
        }
        break;
      }
    }
    for (let x = width - 1; x >= 0; x--) {
      while (starts[top]! > x) top--;
      const p = places[top]!;
      const squared = (x - p) * (x - p) + g2[p + 1]!;
      out[at + x] = Math.min(squared, far);
    }
  }
}
