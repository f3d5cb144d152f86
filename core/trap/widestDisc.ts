import { discSquares } from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/**
 * Finds the widest place of a sparse mask: the largest digital disc inside it. Made once for rasters of one size; nothing
 * is allocated per search. Outside the mask counts as bare.
 */
export class WidestDisc {
  /** Squared radii, ascending, and half-widths by row of each disc. */
  private readonly squares: number[];
  private readonly halves: Int32Array[];

  constructor(
    private readonly width: Px,
    private readonly height: Px,
    private readonly stride: number,
    mostPx: Px,
  ) {
    this.squares = discSquares(mostPx);
    this.halves = this.squares.map((n) => {
      const rows = Math.floor(Math.sqrt(n));
      return Int32Array.from({ length: rows + 1 }, (_, v) => Math.floor(Math.sqrt(n - v * v) + 1e-9));
    });
  }

  /**
   * Diameter in points, 2r + 1, of the largest disc whose middle lies in one of the words at `places` (row × used words +
   * word, the first `count` of them); 0 when there is no ink in them. No wider than the largest disc it was made for.
   */
  find(data: Int32Array, places: Int32Array, count: number): Px {
    const used = (this.width + 31) >>> 5;
    let best = -1;
    for (let i = 0; i < count; i++) {
      const y = Math.floor(places[i]! / used);
      const w = places[i]! - y * used;
      let bits = data[y * this.stride + w]!;
      while (bits !== 0) {
        const bit = 31 - Math.clz32(bits & -bits);
        bits &= bits - 1;
        while (best + 1 < this.halves.length && this.fits(data, w * 32 + bit, y, this.halves[best + 1]!))
          best++;
        if (best + 1 === this.halves.length) return 2 * Math.sqrt(this.squares[best]!) + 1;
      }
    }
    return best < 0 ? 0 : 2 * Math.sqrt(this.squares[best]!) + 1;
  }

  private fits(data: Int32Array, x: number, y: number, half: Int32Array): boolean {
    const reach = half.length - 1;
    if (y < reach || y + reach >= this.height || x < half[0]! || x + half[0]! >= this.width) return false;
    // From the far rows inwards: they fail first.
    for (let v = reach; v >= 0; v--)
      if (!this.row(data, y - v, x, half[v]!) || !this.row(data, y + v, x, half[v]!)) return false;
    return true;
  }

  /** Whether points x − k to x + k of the row are all ink. */
  private row(data: Int32Array, y: number, x: number, k: number): boolean {
    const first = x - k;
    const last = x + k;
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
