import { describe, expect, test } from 'vitest';
import { codesOf } from '../../../core/separate/codes.ts';
import { coresOf, coresPlain, LIKELY, SURE } from '../../../core/separate/cores.ts';
import { labelsOf } from '../../../core/separate/labels.ts';
import { Workspace } from '../../../core/separate/workspace.ts';
import { stream } from '../raster/randomMask.ts';

const LABELS = labelsOf({
  inks: ['#d62828', '#0d3b66'].map((hex) => ({ hex })),
  ground: '#ffffff',
});

/** Opaque words, red in the lowest byte: inks, their near neighbours, and colours near no ink, flat or nearly. */
const COLOURS = ['#d62828', '#d8262b', '#0d3b66', '#103a66', '#ffffff', '#7fbf3f', '#80bd41', '#c05a5a'].map(
  (hex) => {
    const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
    return (255 << 24) | (b! << 16) | (g! << 8) | r!;
  },
);

/** Blocks of up to `side` points of these colours, and some of nothing. */
function blocks(width: number, height: number, side: number, seed: number): Int32Array {
  const next = stream(seed);
  const words = new Int32Array(width * height).fill(COLOURS[4]!);
  for (let n = 0; n < 3 + (4 * width * height) / (side * side); n++) {
    const word = next() < 0.1 ? 0 : COLOURS[Math.floor(next() * COLOURS.length)]!;
    const [x0, y0] = [Math.floor(next() * width), Math.floor(next() * height)];
    const [x1, y1] = [x0 + 1 + Math.floor(next() * side), y0 + 1 + Math.floor(next() * side)];
    for (let y = y0; y < Math.min(height, y1); y++)
      words.fill(word, y * width + x0, y * width + Math.min(width, x1));
  }
  return words;
}

function both(width: number, height: number, side: number, seed: number) {
  const words = blocks(width, height, side, seed);
  const [a, b] = [new Workspace(), new Workspace()];
  const codes = codesOf(words, LABELS, a);
  return [
    coresOf(words, codes, width, height, a),
    coresPlain(words, codes.slice(), width, height, b),
  ] as const;
}

describe('pure points by the kernel are those of the plain twin', () => {
  test('at every width from 1 to 130, in small and large blocks', () => {
    const kinds = { sure: 0, likely: 0, none: 0 };
    for (let width = 1; width <= 130; width++)
      for (const side of [1, 3, 12, 80]) {
        const height = 1 + ((width * 7 + side) % 23);
        const [fast, plain] = both(width, height, side, width * 100 + side);
        expect(fast.cores, `${width} × ${height} of ${side}`).toEqual(plain.cores);
        expect(fast.soft, `${width} × ${height} of ${side}`).toEqual(plain.soft);
        for (const core of plain.cores) kinds[core & SURE ? 'sure' : core & LIKELY ? 'likely' : 'none']++;
      }
    expect(Math.min(kinds.sure, kinds.likely, kinds.none)).toBeGreaterThan(500);
  });

  test('over several bands, and where hardly a point is sure', () => {
    for (const [width, height, side] of [
      [3001, 140, 30],
      [700, 900, 200],
      [70_000, 5, 9],
      [640, 480, 1],
    ] as const) {
      const [fast, plain] = both(width, height, side, width);
      expect(Buffer.compare(fast.cores, plain.cores)).toBe(0);
      expect(fast.soft).toEqual(plain.soft);
    }
  });
});
