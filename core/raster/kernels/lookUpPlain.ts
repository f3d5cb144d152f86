/** Slots of the memo: flat art has a handful of colours, soft edges some thousands. */
export const SLOTS = 1 << 16;

/** The slot of a word. An empty slot holds the key 0, which stands in slot 0 and nowhere else. */
export const slotOf = (word: number): number => Math.imul(word, 0x9e3779b1) >>> 16;

/** The readable definition of `lookUp`. */
export function lookUpPlain(words: Int32Array, answer: (word: number) => number, out: Uint8Array): void {
  const keys = new Int32Array(SLOTS);
  const held = new Uint8Array(SLOTS);
  held[0] = answer(0);
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    const slot = slotOf(word);
    if (keys[slot] !== word) {
      keys[slot] = word;
      held[slot] = answer(word);
    }
    out[i] = held[slot]!;
  }
}

/** The readable definition of `differences`. */
export function differPlain(
  words: Int32Array,
  width: number,
  height: number,
  right: Int32Array,
  below: Int32Array,
): void {
  const stride = (width + 31) >>> 5;
  for (let y = 0; y < height; y++)
    for (let w = 0; w < stride; w++) {
      const first = w * 32;
      const end = Math.min(width, first + 32);
      let h = 0;
      let v = 0;
      for (let x = first; x < end; x++) {
        const i = y * width + x;
        if (x + 1 < width && words[i] !== words[i + 1]) h |= 1 << (x - first);
        if (y + 1 < height && words[i] !== words[i + width]) v |= 1 << (x - first);
      }
      right[y * stride + w] = h;
      below[y * stride + w] = v;
    }
}
