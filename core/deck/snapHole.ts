import { otsu, type Pixels } from './pictureLight.ts';

/** Values apart below which a hole does not stand out from the wood round it, 0 to 255. */
const LEAST_CONTRAST = 20;
/** A hole fills about π/4 of its box; less than this is no disc. */
const LEAST_FILL = 0.6;

/**
 * The middle of the truck hole that was clicked at (x, y) px, looked for at most `reach` px around: the dark or light
 * spot under the click, if it is round and whole. Null where there is none such: the click then stands as it is.
 */
export function snapHole(
  { width, height, data }: Pixels,
  x: number,
  y: number,
  reach: number,
): readonly [number, number] | null {
  const x0 = Math.max(0, Math.floor(x - reach));
  const y0 = Math.max(0, Math.floor(y - reach));
  const w = Math.min(width, Math.ceil(x + reach)) - x0;
  const h = Math.min(height, Math.ceil(y + reach)) - y0;
  if (w < 5 || h < 5) return null;
  const grey = new Float64Array(w * h);
  const histogram = new Uint32Array(256);
  for (let r = 0; r < h; r++)
    for (let c = 0; c < w; c++) {
      const o = ((y0 + r) * width + x0 + c) * 4;
      const value = 0.2126 * data[o]! + 0.7152 * data[o + 1]! + 0.0722 * data[o + 2]!;
      grey[r * w + c] = value;
      histogram[Math.round(value)]!++;
    }
  const { at } = otsu(histogram);
  const mean = (light: boolean) => {
    let [sum, n] = [0, 0];
    for (const value of grey)
      if (value >= at === light) {
        sum += value;
        n++;
      }
    return n ? sum / n : at;
  };
  const [dark, bright] = [mean(false), mean(true)];
  if (bright - dark < LEAST_CONTRAST) return null;
  // A click lands on the spot or beside it: the nearest point of the smaller side is taken.
  let lights = 0;
  for (const value of grey) if (value >= at) lights++;
  const light = lights < grey.length / 2;
  const isSpot = (i: number) => grey[i]! >= at === light;
  let start = -1;
  let least = Infinity;
  for (let i = 0; i < grey.length; i++) {
    if (!isSpot(i)) continue;
    const off = Math.hypot(x0 + (i % w) + 0.5 - x, y0 + Math.floor(i / w) + 0.5 - y);
    if (off < least) [start, least] = [i, off];
  }
  if (start < 0 || least > reach / 2) return null;
  const inSpot = new Uint8Array(grey.length);
  const stack = [start];
  inSpot[start] = 1;
  let [left, right, top, bottom, area] = [w, -1, h, -1, 0];
  while (stack.length > 0) {
    const i = stack.pop()!;
    const [c, r] = [i % w, Math.floor(i / w)];
    [left, right, top, bottom] = [
      Math.min(left, c),
      Math.max(right, c),
      Math.min(top, r),
      Math.max(bottom, r),
    ];
    area++;
    for (const [dc, dr] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      if (c + dc < 0 || c + dc >= w || r + dr < 0 || r + dr >= h) continue;
      const next = i + dr * w + dc;
      if (inSpot[next] || !isSpot(next)) continue;
      inSpot[next] = 1;
      stack.push(next);
    }
  }
  if (left === 0 || top === 0 || right === w - 1 || bottom === h - 1) return null;
  const [wide, high] = [right - left + 1, bottom - top + 1];
  if (Math.min(wide, high) < 0.6 * Math.max(wide, high) || area < LEAST_FILL * wide * high) return null;
  // Weighted by how far each point is spot and not wood, a ring of soft points round it too.
  const wood = light ? dark : bright;
  const spot = light ? bright : dark;
  let [sx, sy, sum] = [0, 0, 0];
  for (let r = Math.max(0, top - 2); r <= Math.min(h - 1, bottom + 2); r++)
    for (let c = Math.max(0, left - 2); c <= Math.min(w - 1, right + 2); c++) {
      const share = Math.min(1, Math.max(0, (grey[r * w + c]! - wood) / (spot - wood)));
      const weight = share < 0.15 ? 0 : share;
      sx += weight * (c + 0.5);
      sy += weight * (r + 0.5);
      sum += weight;
    }
  return [x0 + sx / sum, y0 + sy / sum];
}
