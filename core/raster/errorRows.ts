import type { Px } from '../units/index.ts';

/**
 * What error diffusion passes on (R. W. Floyd, L. Steinberg, 1976: 7/16 ahead, 3, 5 and 1/16 below), for rows taken in turns
 * from left to right and from right to left, several channels a point. Whole numbers; what goes down is kept in sixteenths, for
 * rounding every share would darken long slopes.
 */
export class ErrorRows {
  private errors: Int32Array;
  private next: Int32Array;
  private readonly carry: Int32Array;
  private readonly channels: number;
  private readonly width: Px;

  constructor(channels: number, width: Px) {
    this.channels = channels;
    this.width = width;
    this.errors = new Int32Array(channels * (width + 2));
    this.next = new Int32Array(channels * (width + 2));
    this.carry = new Int32Array(channels);
  }

  begin(): void {
    this.next.fill(0);
    this.carry.fill(0);
  }

  /** What its neighbours missed and point `x` of the row is to make good in `channel`. */
  owed(x: Px, channel: number): number {
    return (this.errors[this.channels * (x + 1) + channel]! >> 4) + this.carry[channel]!;
  }

  /** Passes on what point `x` missed in `channel`; `dir` is 1 from left to right and −1 back. */
  pass(x: Px, channel: number, missed: number, dir: number): void {
    const { next, carry, channels } = this;
    const below = channels * (x + 1) + channel;
    const ahead = (7 * missed) >> 4;
    carry[channel] = ahead;
    next[below - channels * dir] = next[below - channels * dir]! + 3 * missed;
    next[below] = next[below]! + 5 * missed;
    next[below + channels * dir] = next[below + channels * dir]! + 8 * missed - 16 * ahead;
  }

  /** Nothing is passed on along the row from here. */
  drop(): void {
    this.carry.fill(0);
  }

  /** Ends a row: what would fall beside it goes straight down. */
  end(dir: number): void {
    const { next, channels, width } = this;
    const last = channels * (dir < 0 ? 1 : width);
    for (let c = 0; c < channels; c++) {
      next[channels + c] = next[channels + c]! + next[c]!;
      next[channels * width + c] = next[channels * width + c]! + next[channels * (width + 1) + c]!;
      next[last + c] = next[last + c]! + 16 * this.carry[c]!;
    }
    [this.errors, this.next] = [this.next, this.errors];
  }
}
