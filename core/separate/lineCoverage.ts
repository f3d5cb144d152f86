import { parseHex } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import type { Coverage } from './coverage.ts';

/** Points around a point in which its edge lies: drawn edges are two wide, and art is enlarged by half at most. */
const REACH = 3;
/** Distances over red, green, blue and alpha, in encoded levels: the line's own colour and what compression does to it. */
const OWN = 30;
/** A tone at least this far off is told from the line. */
const APART = 64;
/** Of a line too thin to be pure anywhere at least this share is seen. */
const SEEN = 0.5;

/** Encoded red, green and blue times alpha, and alpha, minus the line's; squared and summed, its root. */
function distances({ width, height, data }: Picture, hex: string): Float32Array {
  const [r, g, b] = parseHex(hex);
  const out = new Float32Array(width * height);
  for (let i = 0, at = 0; i < out.length; i++, at += 4) {
    const alpha = data[at + 3]!;
    const share = alpha / 255;
    out[i] = Math.hypot(
      data[at]! * share - r,
      data[at + 1]! * share - g,
      data[at + 2]! * share - b,
      alpha - 255,
    );
  }
  return out;
}

/** For every point the place of the largest (`sign` 1) or smallest (−1) value within `REACH` points along rows and columns. */
function extremes(values: Float32Array, width: number, height: number, sign: 1 | -1): Int32Array {
  const across = new Int32Array(values.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let best = y * width + x;
      for (let u = Math.max(0, x - REACH); u <= Math.min(width - 1, x + REACH); u++)
        if (sign * values[y * width + u]! > sign * values[best]!) best = y * width + u;
      across[y * width + x] = best;
    }
  const out = new Int32Array(values.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let best = across[y * width + x]!;
      for (let v = Math.max(0, y - REACH); v <= Math.min(height - 1, y + REACH); v++) {
        const there = across[v * width + x]!;
        if (sign * values[there]! > sign * values[best]!) best = there;
      }
      out[y * width + x] = best;
    }
  return out;
}

/**
 * Line work of one colour among shaded tones, as coverage. Planes: bare, line. Every point is taken as a mix, in encoded
 * values, of the line and of the tone around that is farthest from it; a mix counts where the line is pure nearby, or where it
 * lies straight between the two (lines thinner than a point). A tone that only resembles the line is none of it.
 */
export function lineCoverage(picture: Picture, hex: string): Coverage {
  const { width, height, data } = picture;
  const far = distances(picture, hex);
  const farthest = extremes(far, width, height, 1);
  const nearest = extremes(far, width, height, -1);
  const [r, g, b] = parseHex(hex);
  const bare = new Uint8Array(width * height).fill(255);
  const line = new Uint8Array(width * height);
  for (let i = 0; i < line.length; i++) {
    const other = farthest[i]!;
    const apart = Math.max(APART, far[other]!);
    const share = 1 - far[i]! / apart;
    if (share <= 0) continue;
    if (far[nearest[i]!]! > OWN) {
      // No pure line about: only a mix that the line and the tone explain by themselves.
      if (1 - far[nearest[i]!]! / apart < SEEN) continue;
      const alpha = data[4 * i + 3]! / 255;
      const alphaThere = data[4 * other + 3]! / 255;
      const off = (c: 0 | 1 | 2, own: number) =>
        data[4 * i + c]! * alpha - share * own - (1 - share) * data[4 * other + c]! * alphaThere;
      if (Math.hypot(off(0, r), off(1, g), off(2, b)) > OWN) continue;
    }
    const byte = Math.round(255 * share);
    line[i] = byte;
    bare[i] = 255 - byte;
  }
  return { width, height, planes: [bare, line] };
}

/** Shares of a line (255ths) below which a point is wholly its tone. */
const TRACE = 12;

/**
 * The picture without its line work: where a line of one of the colours is, the tone beside it goes on under it for `reach`
 * points, so that no gap opens when the line is pulled a little aside; farther in, nothing is left.
 */
export function withoutLines(picture: Picture, hexes: readonly string[], reach: number): Picture {
  if (hexes.length === 0) return picture;
  const { width, height } = picture;
  const lined = new Uint8Array(width * height);
  for (const hex of hexes) {
    const line = lineCoverage(picture, hex).planes[1]!;
    for (let i = 0; i < lined.length; i++) if (line[i]! > TRACE) lined[i] = 1;
  }
  const bytes = Uint8Array.from(picture.data);
  const words = new Uint32Array(bytes.buffer);
  let front: number[] = [];
  for (let i = 0; i < lined.length; i++)
    if (lined[i] === 0 && touches(lined, i, width, height)) front.push(i);
  for (let step = 0; step < reach && front.length > 0; step++) {
    const next: number[] = [];
    for (const i of front) {
      const x = i % width;
      const y = (i - x) / width;
      for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++)
        for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
          const j = v * width + u;
          if (lined[j] === 0) continue;
          lined[j] = 0;
          words[j] = words[i]!;
          next.push(j);
        }
    }
    front = next;
  }
  for (let i = 0; i < lined.length; i++) if (lined[i] !== 0) words[i] = 0;
  return { width, height, data: bytes };
}

/** Whether a point has a marked neighbour. */
function touches(marked: Uint8Array, i: number, width: number, height: number): boolean {
  const x = i % width;
  const y = (i - x) / width;
  for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++)
    for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++)
      if (marked[v * width + u] !== 0) return true;
  return false;
}
