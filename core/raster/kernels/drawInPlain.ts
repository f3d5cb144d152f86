import type { Px } from '../../units/index.ts';
import { discHalfWidths } from '../disc.ts';
import { getBit, type Mask, setBit } from '../mask.ts';

/** What `least` says where no disc takes a point. */
export const NO_DISC = 65535;

/** How ink is drawn in from its edges. Distances from a point to the nearest bare one; squares of whole points are whole. */
export interface DrawIn {
  /** Points this much or less from a bare one go, but for thin ink. */
  readonly chokePx: Px;
  /** The square of the largest disc's radius that is looked for in the ink. */
  readonly largest: number;
  /**
   * By a point's squared distance n, up to `largest` + 1 for all beyond: the square of the radius a disc inside the ink must have at least, that
   * covers the point, for it to go. `NO_DISC` for points that no disc takes.
   */
  readonly least: Uint16Array;
  /** Points at most `bound` from bare ground go where a disc of `radius` covers them: what `least` says, sooner found. */
  readonly look: { readonly radius: Px; readonly bound: Px } | null;
}

/** The readable definition of `drawInRows`. */
export function drawInPlain(
  masks: readonly Mask[],
  from: Px,
  to: Px,
  { chokePx, largest, least }: DrawIn,
  out: Mask,
): void {
  const inked = (x: Px, y: Px) => masks.some((mask) => getBit(mask, x, y));
  const half = discHalfWidths(Math.sqrt(largest));
  const reach = half.length - 1;
  const width = out.width as number;
  const top = from - 2 * reach - 1;
  const rows = to - from + 4 * reach + 2;
  const ink = new Uint8Array(rows * width);
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < width; x++) if (inked(x, y + top)) ink[y * width + x] = 1;
  const bare = (x: Px, y: Px) =>
    x < 0 || x >= width || y < top || y >= top + rows || ink[(y - top) * width + x] === 0;
  const found = new Map<number, number>();
  /** A point's squared distance to the nearest bare one, largest + 1 at most. */
  const distance = (x: Px, y: Px) => {
    if (bare(x, y)) return 0;
    const known = found.get(y * width + x);
    if (known !== undefined) return known;
    let nearest = largest + 1;
    for (let dy = -reach; dy <= reach; dy++)
      for (let dx = -half[Math.abs(dy)]!; dx <= half[Math.abs(dy)]!; dx++)
        if (dx * dx + dy * dy < nearest && bare(x + dx, y + dy)) nearest = dx * dx + dy * dy;
    found.set(y * width + x, nearest);
    return nearest;
  };
  /** Whether a disc inside the ink, of a squared radius of at least `square`, covers the point. */
  const covered = (x: Px, y: Px, square: number) => {
    for (let dy = -reach; dy <= reach; dy++)
      for (let dx = -half[Math.abs(dy)]!; dx <= half[Math.abs(dy)]!; dx++) {
        // The disc about that point that only just lies inside: its squared radius is less than the distance's square.
        const room = distance(x + dx, y + dy);
        if (room > square && room > dx * dx + dy * dy) return true;
      }
    return false;
  };
  for (let y = from; y < to; y++)
    for (let x = 0; x < width; x++) {
      const own = distance(x, y);
      const deep = own > Math.floor(chokePx * chokePx + 1e-9);
      const bound = least[own]!;
      setBit(out, x, y, own > 0 && (deep || bound === NO_DISC || !covered(x, y, bound)));
    }
}
