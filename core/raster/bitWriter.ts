/** Bits into bytes, the first bit in the most significant place. */
export class BitWriter {
  private bytes: Uint8Array;
  private size = 0;
  private pending = 0;
  private count = 0;

  constructor(room: number) {
    this.bytes = new Uint8Array(Math.max(64, room));
  }

  /** Appends the lowest `length` ≤ 24 bits of `code`, whose other bits are 0. */
  put(code: number, length: number): void {
    this.pending = (this.pending << length) | code;
    this.count += length;
    while (this.count >= 8) {
      this.count -= 8;
      if (this.size === this.bytes.length) this.enlarge();
      this.bytes[this.size++] = this.pending >>> this.count;
    }
    // At most 7 bits wait, so that 24 more never push one out of the 32.
    this.pending &= (1 << this.count) - 1;
  }

  /** Appends whole bytes; no bits may wait. */
  append(bytes: Uint8Array): void {
    if (this.count > 0) throw new RangeError('Whole bytes can not follow a part of one.');
    while (this.size + bytes.length > this.bytes.length) this.enlarge();
    this.bytes.set(bytes, this.size);
    this.size += bytes.length;
  }

  /** All bits so far, the last byte filled up with zeros. */
  finish(): Uint8Array {
    if (this.count > 0) this.put(0, 8 - this.count);
    return this.bytes.slice(0, this.size);
  }

  private enlarge(): void {
    const wider = new Uint8Array(this.bytes.length * 2);
    wider.set(this.bytes);
    this.bytes = wider;
  }
}
