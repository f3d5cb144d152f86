import { blankMask, type Mask, setBit } from '../../../core/raster/index.ts';

/** A seeded stream of numbers in [0, 1): mulberry32 (T. Ettinger, public domain). */
export function stream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A mask with about `share` of its points inked at random. */
export function randomMask(width: number, height: number, share: number, seed: number): Mask {
  const next = stream(seed);
  const mask = blankMask(width, height);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) if (next() < share) setBit(mask, x, y);
  return mask;
}

/** A mask of discs and bars: what line art looks like to a kernel. */
export function blobs(width: number, height: number, count: number, seed: number): Mask {
  const next = stream(seed);
  const mask = blankMask(width, height);
  for (let i = 0; i < count; i++) {
    const r = 1 + next() * 9;
    const [cx, cy] = [next() * width, next() * height];
    const bar = next() < 0.4 ? 12 + next() * 30 : 0;
    for (let y = Math.floor(cy - r); y <= cy + r; y++)
      for (let x = Math.floor(cx - r - bar); x <= cx + r + bar; x++) {
        const dx = Math.max(0, Math.abs(x - cx) - bar);
        if (dx * dx + (y - cy) ** 2 <= (bar > 0 ? (r * r) / 8 : r * r)) setBit(mask, x, y);
      }
  }
  return mask;
}

/** Whether every bit beyond the width is 0, which all functions promise. */
export function tidy(mask: Mask): boolean {
  for (let y = 0; y < mask.height; y++)
    for (let x = mask.width; x < mask.stride * 32; x++)
      if ((mask.data[y * mask.stride + (x >>> 5)]! >>> (x & 31)) & 1) return false;
  return true;
}
