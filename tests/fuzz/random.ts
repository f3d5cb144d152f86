/** Chance that can be had again: the same seed gives the same inputs on every machine. */
export interface Chance {
  /** A whole number from 0 to `below - 1`. */
  int(below: number): number;
  /** From 0 to below 1. */
  share(): number;
  pick<T>(list: readonly T[]): T;
}

/** mulberry32 (public domain), 32 bits of state. */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const share = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const int = (below: number) => Math.floor(share() * below);
  return {
    share,
    int,
    pick<T>(list: readonly T[]): T {
      if (list.length === 0) throw new Error('There is nothing to pick from.');
      return list[int(list.length)] as T;
    },
  };
}
