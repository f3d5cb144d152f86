/** Something made, and a number that no other making has: results that build on it name it in their keys. */
export interface Made<T> {
  readonly value: T;
  readonly turn: number;
}

interface Slot extends Made<unknown> {
  readonly key: string;
}

/**
 * What a face was made of on its way, step by step, each step with a key of all that it depends on: after a change only the
 * steps whose key has changed are made again. What is kept must not be changed by anyone. One memory serves one face at one
 * resolution; `round` forgets what its last round did not use.
 */
export class InkMemory {
  private slots = new Map<string, Slot>();
  private fresh = new Map<string, Slot>();
  private turns = 0;

  /** What stands in a slot if its key is still the same, else what `make` makes. */
  keep<T>(slot: string, key: string, make: () => T): Made<T> {
    const known = this.fresh.get(slot) ?? this.slots.get(slot);
    const made = known?.key === key ? known : { key, value: make(), turn: ++this.turns };
    this.fresh.set(slot, made);
    return made as Made<T> & Slot;
  }

  /** What stands in a slot, whatever it was made from; it lives on for another round. */
  last<T>(slot: string): Made<T> | null {
    const known = this.fresh.get(slot) ?? this.slots.get(slot);
    if (known) this.fresh.set(slot, known);
    return (known as Made<T> | undefined) ?? null;
  }

  /** One walk through all steps. */
  round<T>(walk: () => T): T {
    const result = walk();
    this.slots = this.fresh;
    this.fresh = new Map();
    return result;
  }
}
