/**
 * Arrays that are used again from window to window. Memory that is touched for the first time costs more than most of what is
 * done in it, so that whoever separates many windows hands over one of these. What a name held before is lost.
 */
export class Workspace {
  private readonly held = new Map<string, ArrayBuffer>();

  private room(name: string, bytes: number): ArrayBuffer {
    let buffer = this.held.get(name);
    if (!buffer || buffer.byteLength < bytes) {
      buffer = new ArrayBuffer((bytes + 7) & ~7);
      this.held.set(name, buffer);
    }
    return buffer;
  }

  /** Lets all of them go. */
  clear(): void {
    this.held.clear();
  }

  /** `length` bytes with anything in them. */
  bytes(name: string, length: number): Uint8Array {
    return new Uint8Array(this.room(name, length), 0, length);
  }

  /** `length` signed words with anything in them. */
  words(name: string, length: number): Int32Array {
    return new Int32Array(this.room(name, 4 * length), 0, length);
  }
}
