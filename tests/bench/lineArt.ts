import { blankMask, type Mask, type Plane, type WarpGrid } from '../../core/raster/index.ts';

/** A seeded stream in [0, 1) (the linear congruence of Numerical Recipes): the same pictures every time. */
export function stream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

function span(mask: Mask, y: number, from: number, to: number): void {
  const end = Math.min(mask.width, to);
  for (let x = Math.max(0, from); x < end; ) {
    const stop = Math.min(end, (x | 31) + 1);
    const bits = (0xffffffff << (x & 31)) & (0xffffffff >>> (31 - ((stop - 1) & 31)));
    const word = y * mask.stride + (x >>> 5);
    mask.data[word] = mask.data[word]! | bits;
    x = stop;
  }
}

/** Rings and discs from hairlines to solids, about two fifths ink: what a separated film looks like to a kernel. */
export function lineArt(width: number, height: number): Mask {
  const mask = blankMask(width, height);
  const next = stream(1);
  const count = Math.round((width * height) / 27500);
  for (let i = 0; i < count; i++) {
    const [cx, cy, r] = [next() * width, next() * height, 20 + next() * 120];
    const inner = r - Math.min(r, 4 + next() * 80);
    for (let y = Math.max(0, Math.ceil(cy - r)); y <= Math.min(height - 1, cy + r); y++) {
      const half = Math.sqrt(r * r - (y - cy) ** 2);
      const hollow = inner * inner - (y - cy) ** 2;
      const gap = hollow > 0 ? Math.sqrt(hollow) : 0;
      span(mask, y, Math.round(cx - half), Math.round(cx - gap));
      span(mask, y, Math.round(cx + gap), Math.round(cx + half));
    }
  }
  return mask;
}

/** Coverage of `count` planes, soft discs one point wide at their edges; plane 0 is bare. Every point sums to 255. */
export function coverage(count: number, width: number, height: number): Uint8Array[] {
  const planes = Array.from({ length: count }, () => new Uint8Array(width * height));
  planes[0]!.fill(255);
  const next = stream(2);
  for (let i = 0; i < (width * height) / 10000; i++) {
    const [cx, cy, r] = [next() * width, next() * height, 6 + next() * 60];
    const own = planes[1 + Math.floor(next() * (count - 1))]!;
    for (let y = Math.max(0, Math.floor(cy - r - 1)); y <= Math.min(height - 1, cy + r + 1); y++)
      for (let x = Math.max(0, Math.floor(cx - r - 1)); x <= Math.min(width - 1, cx + r + 1); x++) {
        const edge = Math.min(1, r + 0.5 - Math.hypot(x - cx, y - cy));
        if (edge <= 0) continue;
        const at = y * width + x;
        let rest = 255;
        for (const plane of planes) {
          plane[at] = Math.round(plane[at]! * (1 - edge));
          rest -= plane[at]!;
        }
        own[at] = own[at]! + rest;
      }
  }
  return planes;
}

/** The grid that plainly enlarges a source to width × height. */
export function enlarging(srcWidth: number, srcHeight: number, width: number, height: number): WarpGrid {
  const step = 64;
  const cols = Math.ceil(width / step) + 1;
  const rows = Math.ceil(height / step) + 1;
  const xy = new Float32Array(2 * cols * rows);
  for (let r = 0, i = 0; r < rows; r++)
    for (let c = 0; c < cols; c++) {
      xy[i++] = (c * step * srcWidth) / width;
      xy[i++] = (r * step * srcHeight) / height;
    }
  return { step, cols, rows, xy };
}

/** A slope from 0 to 255 with some grain. */
export function tones(width: number, height: number): Plane {
  const next = stream(3);
  const data = new Uint8Array(width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) data[i++] = Math.min(255, (x * 248) / width + next() * 8);
  return { width, height, data };
}

/** A band to cut through: rough costs with blank stretches. */
export function cutBand(width: number, height: number): Uint16Array {
  const next = stream(4);
  return Uint16Array.from({ length: width * height }, (_, i) => (i % 7 < 3 ? 1 : Math.floor(next() * 500)));
}
