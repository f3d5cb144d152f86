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
