/** Slots of the memo: flat art has a handful of colours, soft edges some thousands. */
export const SLOTS = 1 << 16;

/** The slot of a word. An empty slot holds the key 0, which stands in slot 0 and nowhere else. */
export const slotOf = (word: number): number => Math.imul(word, 0x9e3779b1) >>> 16;

/** Answers to the words seen last, by slot. */
export interface Memo {
  readonly keys: Int32Array;
  readonly held: Uint8Array;
}

/** One that knows the answer to 0, which its empty slots name. */
export function newMemo(answer: (word: number) => number): Memo {
  const memo = { keys: new Int32Array(SLOTS), held: new Uint8Array(SLOTS) };
  memo.held[0] = answer(0);
  return memo;
}

/** The readable definition of `lookUp`. */
export function lookUpPlain(
  words: Int32Array,
  answer: (word: number) => number,
  out: Uint8Array,
  { keys, held }: Memo = newMemo(answer),
): void {
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
