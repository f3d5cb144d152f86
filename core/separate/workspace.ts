import { type Memo, newMemo } from '../raster/index.ts';

/**
 * Arrays that are used again from window to window. Memory that is touched for the first time costs more than most of what is
 * done in it, so that whoever separates many windows hands over one of these. What a name held before is lost.
 */
export class Workspace {
  private readonly held = new Map<string, ArrayBuffer>();
  private answers: { readonly key: string; readonly memo: Memo } | undefined;

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
    this.answers = undefined;
  }

  /** The memo of these answers: the one that was asked for last, where `key` is the same. */
  memo(key: string, answer: (word: number) => number): Memo {
    if (this.answers?.key !== key) this.answers = { key, memo: newMemo(answer) };
    return this.answers.memo;
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
