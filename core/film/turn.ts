import { blankMask, type Mask } from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/** 32 × 32 bits turned over their diagonal, in place: bit j of word i becomes bit i of word j (Hacker's Delight, 7-3). */
function transpose32(block: Uint32Array): void {
  let keep = 0x0000ffff;
  for (let j = 16; j !== 0; j >>= 1, keep ^= keep << j) {
    for (let k = 0; k < 32; k = (k + j + 1) & ~j) {
      const swap = ((block[k]! >>> j) ^ block[k + j]!) & keep;
      block[k + j]! ^= swap;
      block[k]! ^= swap << j;
    }
  }
}

/** A quarter turn counter-clockwise: the right edge becomes the top. `make` gives it blank. */
export function turnLeft(mask: Mask, make: (width: Px, height: Px) => Mask = blankMask): Mask {
  const [w, h] = [mask.width as number, mask.height as number];
  const out = make(h, w);
  const block = new Uint32Array(32);
  for (let by = 0; by < h; by += 32) {
    const rows = Math.min(32, h - by);
    for (let i = 0; i < (w + 31) >>> 5; i++) {
      let any = 0;
      for (let r = 0; r < 32; r++) {
        const word = r < rows ? mask.data[(by + r) * mask.stride + i]! : 0;
        block[r] = word;
        any |= word;
      }
      if (any === 0) continue;
      transpose32(block);
      for (let c = 0; c < 32; c++) {
        const x = i * 32 + c;
        if (x >= w) break;
        out.data[(w - 1 - x) * out.stride + (by >>> 5)] = block[c]!;
      }
    }
  }
  return out;
}

/** Left and right exchanged. `make` gives it blank. */
export function mirrored(mask: Mask, make: (width: Px, height: Px) => Mask = blankMask): Mask {
  const out = make(mask.width, mask.height);
  const words = mask.stride;
  const spare = words * 32 - (mask.width as number);
  const row = new Uint32Array(words);
  for (let y = 0; y < (mask.height as number); y++) {
    for (let i = 0; i < words; i++) {
      let v = mask.data[y * words + i]!;
      v = ((v >>> 1) & 0x55555555) | ((v & 0x55555555) << 1);
      v = ((v >>> 2) & 0x33333333) | ((v & 0x33333333) << 2);
      v = ((v >>> 4) & 0x0f0f0f0f) | ((v & 0x0f0f0f0f) << 4);
      v = ((v >>> 8) & 0x00ff00ff) | ((v & 0x00ff00ff) << 8);
      row[words - 1 - i] = (v >>> 16) | (v << 16);
    }
    // The reversed row begins with the spare bits; move it down over them.
    const skip = spare >>> 5;
    const shift = spare & 31;
    for (let i = 0; i + skip < words; i++) {
      const low = row[i + skip]!;
      const high = i + skip + 1 < words ? row[i + skip + 1]! : 0;
      out.data[y * words + i] = shift === 0 ? low : (low >>> shift) | (high << (32 - shift));
    }
  }
  return out;
}
