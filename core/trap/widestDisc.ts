import type { Px } from '../units/index.ts';

/** One row of a disc: from `left` to `right` of the middle, both included. */
interface DiscRow {
  readonly dy: number;
  readonly left: number;
  readonly right: number;
}

/**
 * A round brush of whole diameter n ≥ 1, odd or even. Its middle lies on a point where n is odd, and on the corner right
 * below one where n is even; it holds the points as near to it as those n/2 away along x. Far rows first: they are the
 * first that do not fit.
 */
function discRows(diameter: number): DiscRow[] {
  const middle = diameter % 2 === 0 ? 0.5 : 0;
  const squared = ((diameter - 1) / 2) ** 2 + middle * middle;
  const rows: DiscRow[] = [];
  for (let dy = Math.ceil(middle - (diameter - 1) / 2); dy - middle <= (diameter - 1) / 2; dy++) {
    const half = Math.sqrt(Math.max(0, squared - (dy - middle) ** 2)) + 1e-9;
    const left = Math.ceil(middle - half);
    const right = Math.floor(middle + half);
    if (right >= left) rows.push({ dy, left, right });
  }
  return rows.sort((a, b) => Math.abs(b.dy - middle) - Math.abs(a.dy - middle));
}

/**
 * Finds the widest place of a sparse mask: the largest round brush that lies inside it. Made once for rasters of one size;
 * nothing is allocated per search. Outside the mask counts as bare.
 */
export class WidestDisc {
  /** By diameter less one. */
  private readonly discs: DiscRow[][];

  constructor(
    private readonly width: Px,
    private readonly height: Px,
    private readonly stride: number,
    mostPx: Px,
  ) {
    this.discs = Array.from({ length: Math.max(1, Math.ceil(mostPx)) }, (_, i) => discRows(i + 1));
  }

  /**
   * Diameter in points of the largest brush whose middle lies in one of the words at `places` (row × used words + word, the
   * first `count` of them); 0 when there is no ink in them, and never more than it was made for.
   */
  find(data: Int32Array, places: Int32Array, count: number): Px {
    const { discs } = this;
    const used = (this.width + 31) >>> 5;
    let best = 0;
    for (let i = 0; i < count; i++) {
      const y = Math.floor(places[i]! / used);
      const w = places[i]! - y * used;
      let bits = this.roomy(data, y, w, best >> 1);
      while (bits !== 0) {
        const x = w * 32 + 31 - Math.clz32(bits & -bits);
        bits &= bits - 1;
        // A brush does not always hold the next smaller one, whose middle lies half a point away: look one further.
        while (best < discs.length) {
          if (this.fits(data, x, y, discs[best]!)) best += 1;
          else if (best + 1 < discs.length && this.fits(data, x, y, discs[best + 1]!)) best += 2;
          else break;
        }
        if (best === discs.length) return best;
      }
    }
    return best;
  }

  /**
   * The points of a word from which `reach` points to the left, right, up and down there is ink: every brush that is wider
   * than `2 * reach` holds those four, so no other point can be its middle.
   */
  private roomy(data: Int32Array, y: number, w: number, reach: number): number {
    const at = y * this.stride + w;
    if (reach === 0) return data[at]!;
    if (y < reach || y + reach >= this.height) return 0;
    const bits = data[at]! & data[at - reach * this.stride]! & data[at + reach * this.stride]!;
    if (bits === 0) return 0;
    return bits & this.from(data, y, w * 32 - reach) & this.from(data, y, w * 32 + reach);
  }

  /** 32 points of row `y` from column `x`, bare beyond the mask. */
  private from(data: Int32Array, y: number, x: number): number {
    const used = (this.width + 31) >>> 5;
    const [w, shift] = [x >> 5, x & 31];
    const start = y * this.stride;
    const low = w >= 0 && w < used ? data[start + w]! >>> shift : 0;
    return shift !== 0 && w + 1 >= 0 && w + 1 < used ? low | (data[start + w + 1]! << (32 - shift)) : low;
  }

  private fits(data: Int32Array, x: number, y: number, rows: readonly DiscRow[]): boolean {
    for (let i = 0; i < rows.length; i++) {
      const { dy, left, right } = rows[i]!;
      if (!this.filled(data, y + dy, x + left, x + right)) return false;
    }
    return true;
  }

  /** Whether points `first` to `last` of the row are all ink. */
  private filled(data: Int32Array, y: number, first: number, last: number): boolean {
    if (y < 0 || y >= this.height || first < 0 || last >= this.width) return false;
    const start = y * this.stride;
    for (let w = first >> 5; w <= last >> 5; w++) {
      const from = Math.max(first, w * 32) & 31;
      const to = Math.min(last, w * 32 + 31) & 31;
      const span = (-1 << from) & (-1 >>> (31 - to));
      if ((data[start + w]! & span) !== span) return false;
    }
    return true;
  }
}
