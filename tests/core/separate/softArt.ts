import type { Picture } from '../../../core/raster/index.ts';
import { stream } from '../raster/randomMask.ts';

export const INKS = ['#f4d35e', '#ee964b', '#0d3b66', '#d62828', '#101010', '#5fa55a'].map((hex) => ({
  hex,
}));
const rgb = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/** Discs, bars and hairlines of the inks, soft at their edges, on a ground or on nothing, with some noise. */
export function softArt(width: number, height: number, seed: number, noise: number, clear: boolean): Picture {
  const random = stream(seed);
  const data = new Uint8Array(width * height * 4).fill(clear ? 0 : 255);
  const shapes = 4 + Math.floor((width * height) / 700);
  for (let n = 0; n < shapes; n++) {
    const [r, g, b] = rgb(INKS[Math.floor(random() * INKS.length)]!.hex);
    const [cx, cy] = [random() * width, random() * height];
    const line = random() < 0.5;
    const [radius, bar] = line ? [0.2 + random() * 1.4, 10 + random() * 40] : [1 + random() * 14, 0];
    const upright = random() < 0.5;
    const far = radius + bar + 1;
    for (let y = Math.max(0, Math.floor(cy - far)); y < Math.min(height, cy + far); y++)
      for (let x = Math.max(0, Math.floor(cx - far)); x < Math.min(width, cx + far); x++) {
        const [p, q] = upright ? [y - cy, x - cx] : [x - cx, y - cy];
        const off = Math.hypot(Math.max(0, Math.abs(p) - bar), q) - radius;
        const share = Math.max(0, Math.min(1, 0.5 - off));
        if (share === 0) continue;
        const o = (y * width + x) * 4;
        const alpha = data[o + 3]! / 255;
        const all = share + alpha * (1 - share);
        for (const [c, v] of [r!, g!, b!].entries())
          data[o + c] = Math.round((v * share + data[o + c]! * alpha * (1 - share)) / all);
        data[o + 3] = Math.round(255 * all);
      }
  }
  for (let i = 0; i < data.length; i++)
    if (noise > 0 && i % 4 !== 3)
      data[i] = Math.max(0, Math.min(255, data[i]! + Math.round((random() - 0.5) * noise)));
  return { width, height, data };
}
