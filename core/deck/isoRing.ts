import type { SplitLight } from './pictureLight.ts';

/** Ways out of a square of four points by the side gone in at: 0 top, 1 right, 2 bottom, 3 left. */
const DX = [0, 1, 0, -1];
const DY = [-1, 0, 1, 0];

/** The sides of a square whose ends differ, two and two together, by which of its corners are deck. */
function wayOut(deck: number, inBy: number, middleIsDeck: boolean): number {
  // Corners as bits: top left 8, top right 4, bottom right 2, bottom left 1.
  if (deck === 5 || deck === 10) {
    // Two corners each: the middle tells which of them hang together.
    const topWithRight = (deck === 10) === middleIsDeck;
    return topWithRight ? [1, 0, 3, 2][inBy]! : [3, 2, 1, 0][inBy]!;
  }
  const at = [(deck >> 3) & 1, (deck >> 2) & 1, (deck >> 1) & 1, deck & 1];
  for (let side = 0; side < 4; side++) if (side !== inBy && at[side] !== at[(side + 1) % 4]) return side;
  return inBy;
}

/**
 * The line of even light around the largest piece of deck, in picture px (x right, y down, a point's middle at +0.5), by
 * marching squares: between two points it lies where light between them would be `level`. Null where there is none.
 * Cost: one pass and the lines' own lengths.
 */
export function largestIsoRing(split: SplitLight): readonly (readonly [number, number])[] | null {
  const { width, height, light, level, sign } = split;
  // The picture's own border counts as ground, so that every line closes.
  const value = (x: number, y: number) =>
    x <= 0 || y <= 0 || x >= width - 1 || y >= height - 1
      ? -1e-6
      : sign * (light[y * width + x]! - level) || -1e-9;
  const seen = new Uint8Array(width * height);
  let best: [number, number][] | null = null;
  let bestArea = 0;
  for (let y = 0; y < height - 1; y++)
    for (let x = 0; x < width - 1; x++) {
      if (seen[y * width + x] || value(x, y) > 0 === value(x + 1, y) > 0) continue;
      const ring: [number, number][] = [];
      let twice = 0;
      let [cx, cy, inBy] = [x, y, 0];
      for (;;) {
        const corners = [value(cx, cy), value(cx + 1, cy), value(cx + 1, cy + 1), value(cx, cy + 1)];
        // Side 0 runs from corner 0 to 1, side 1 from 1 to 2, and so on round.
        const a = corners[inBy]!;
        const b = corners[(inBy + 1) % 4]!;
        const share = a / (a - b);
        const px = cx + 0.5 + [share, 1, 1 - share, 0][inBy]!;
        const py = cy + 0.5 + [0, share, 1, 1 - share][inBy]!;
        const last = ring[ring.length - 1];
        if (last) twice += last[0] * py - px * last[1];
        ring.push([px, py]);
        if (inBy === 0) seen[cy * width + cx] = 1;
        else if (inBy === 2) seen[(cy + 1) * width + cx] = 1;
        let deck = 0;
        for (let i = 0; i < 4; i++) if (corners[i]! > 0) deck |= 8 >> i;
        const out = wayOut(deck, inBy, corners[0]! + corners[1]! + corners[2]! + corners[3]! > 0);
        cx += DX[out]!;
        cy += DY[out]!;
        inBy = (out + 2) % 4;
        if ((inBy === 0 && cx === x && cy === y) || (inBy === 2 && cx === x && cy === y - 1)) break;
      }
      const first = ring[0]!;
      const end = ring[ring.length - 1]!;
      const area = Math.abs(twice + end[0] * first[1] - first[0] * end[1]) / 2;
      if (area > bestArea) [best, bestArea] = [ring, area];
    }
  return best;
}
