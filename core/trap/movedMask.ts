import type { Mask } from '../raster/index.ts';
import { pxPerMm } from '../units/index.ts';
import type { PullError } from './pullError.ts';

/**
 * Reads words of a mask moved by a small rigid error, rounded to whole points, without making the moved mask. For the
 * tiny turns of a screen (below a hundredth of a radian) the row a point comes from depends on its column and the column on
 * its row; both offsets are tabulated, by row and by word.
 */
export class MovedMask {
  private readonly words: Int32Array;
  private readonly rowOffset: Int32Array;
  private readonly columnOffset: Int32Array;
  private readonly used: number;

  constructor(private readonly mask: Mask) {
    this.words = new Int32Array(mask.data.buffer, mask.data.byteOffset, mask.data.length);
    this.used = (mask.width + 31) >>> 5;
    this.rowOffset = new Int32Array(this.used);
    this.columnOffset = new Int32Array(mask.height);
  }

  /** Moves it so, at `dpi`, from where it lies in the mask. */
  place({ dx, dy, turnRad }: PullError, dpi: number): void {
    const scale = pxPerMm(dpi);
    const { width, height } = this.mask;
    for (let w = 0; w < this.used; w++)
      this.rowOffset[w] = Math.round(dy * scale + turnRad * (w * 32 + 16 - width / 2));
    for (let y = 0; y < height; y++)
      this.columnOffset[y] = Math.round(dx * scale - turnRad * (y + 0.5 - height / 2));
  }

  /** The 32 points of word `w` in row `y`. */
  word(y: number, w: number): number {
    const row = y - this.rowOffset[w]!;
    if (row < 0 || row >= this.mask.height) return 0;
    const from = w * 32 - this.columnOffset[y]!;
    const at = from >> 5;
    const shift = from & 31;
    const start = row * this.mask.stride;
    let word = at >= 0 && at < this.used ? this.words[start + at]! >>> shift : 0;
    if (shift !== 0 && at + 1 >= 0 && at + 1 < this.used) word |= this.words[start + at + 1]! << (32 - shift);
    return word;
  }
}
