import { type Pt, placed, type Ring, stroke, through } from './curve.ts';

/**
 * Our own capitals as pen strokes in a box 1 high (y from 0 at the top to 1) and as wide as stated; drawn with a broad
 * pen whose stems are heavier than its bars and which spreads a little at its ends.
 */
const GLYPHS: Record<string, { w: number; lines: Pt[][] }> = {
  A: {
    w: 0.74,
    lines: [
      [
        [0, 1],
        [0.2, 0.5],
        [0.36, 0],
      ],
      [
        [0.36, 0],
        [0.54, 0.5],
        [0.74, 1],
      ],
      [
        [0.14, 0.66],
        [0.6, 0.66],
      ],
    ],
  },
  B: {
    w: 0.56,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.04, 0.01],
        [0.3, 0],
        [0.48, 0.1],
        [0.48, 0.34],
        [0.3, 0.46],
        [0.06, 0.47],
      ],
      [
        [0.06, 0.47],
        [0.34, 0.48],
        [0.56, 0.6],
        [0.55, 0.86],
        [0.34, 1],
        [0.04, 0.99],
      ],
    ],
  },
  D: {
    w: 0.66,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.04, 0.01],
        [0.32, 0.02],
        [0.58, 0.2],
        [0.66, 0.5],
        [0.58, 0.8],
        [0.32, 0.98],
        [0.04, 0.99],
      ],
    ],
  },
  E: {
    w: 0.5,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.04, 0.02],
        [0.5, 0],
      ],
      [
        [0.04, 0.48],
        [0.42, 0.48],
      ],
      [
        [0.04, 0.98],
        [0.52, 1],
      ],
    ],
  },
  G: {
    w: 0.68,
    lines: [
      [
        [0.64, 0.2],
        [0.5, 0.04],
        [0.32, 0],
        [0.1, 0.16],
        [0.01, 0.5],
        [0.1, 0.84],
        [0.34, 1],
        [0.56, 0.94],
        [0.66, 0.82],
      ],
      [
        [0.66, 0.98],
        [0.66, 0.56],
      ],
      [
        [0.42, 0.57],
        [0.72, 0.56],
      ],
    ],
  },
  H: {
    w: 0.62,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.58, 0],
        [0.58, 1],
      ],
      [
        [0.04, 0.5],
        [0.58, 0.48],
      ],
    ],
  },
  I: {
    w: 0.1,
    lines: [
      [
        [0.05, 0],
        [0.05, 1],
      ],
    ],
  },
  J: {
    w: 0.42,
    lines: [
      [
        [0.38, 0],
        [0.38, 0.7],
        [0.3, 0.95],
        [0.14, 1],
        [0, 0.88],
      ],
    ],
  },
  K: {
    w: 0.6,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.56, 0],
        [0.3, 0.34],
        [0.06, 0.54],
      ],
      [
        [0.2, 0.44],
        [0.4, 0.7],
        [0.6, 1],
      ],
    ],
  },
  M: {
    w: 0.84,
    lines: [
      [
        [0.03, 1],
        [0.08, 0],
      ],
      [
        [0.08, 0],
        [0.26, 0.4],
        [0.42, 0.78],
      ],
      [
        [0.42, 0.78],
        [0.58, 0.4],
        [0.76, 0],
      ],
      [
        [0.76, 0],
        [0.81, 1],
      ],
    ],
  },
  N: {
    w: 0.64,
    lines: [
      [
        [0.04, 1],
        [0.04, 0],
      ],
      [
        [0.04, 0],
        [0.3, 0.48],
        [0.6, 1],
      ],
      [
        [0.6, 1],
        [0.6, 0],
      ],
    ],
  },
  O: {
    w: 0.76,
    lines: [
      [
        [0.38, 0],
        [0.64, 0.12],
        [0.75, 0.48],
        [0.66, 0.86],
        [0.38, 1],
        [0.12, 0.88],
        [0.01, 0.5],
        [0.11, 0.13],
        [0.38, 0],
      ],
    ],
  },
  P: {
    w: 0.54,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.04, 0.01],
        [0.32, 0],
        [0.53, 0.12],
        [0.52, 0.42],
        [0.32, 0.54],
        [0.05, 0.55],
      ],
    ],
  },
  R: {
    w: 0.6,
    lines: [
      [
        [0.04, 0],
        [0.04, 1],
      ],
      [
        [0.04, 0.01],
        [0.32, 0],
        [0.53, 0.11],
        [0.52, 0.38],
        [0.32, 0.49],
        [0.05, 0.5],
      ],
      [
        [0.27, 0.5],
        [0.44, 0.74],
        [0.62, 1],
      ],
    ],
  },
  T: {
    w: 0.62,
    lines: [
      [
        [0.31, 0],
        [0.31, 1],
      ],
      [
        [0, 0.02],
        [0.31, 0.01],
        [0.62, 0],
      ],
    ],
  },
  W: {
    w: 0.96,
    lines: [
      [
        [0, 0],
        [0.12, 0.5],
        [0.24, 1],
      ],
      [
        [0.24, 1],
        [0.37, 0.55],
        [0.48, 0.12],
      ],
      [
        [0.48, 0.12],
        [0.6, 0.55],
        [0.72, 1],
      ],
      [
        [0.72, 1],
        [0.84, 0.5],
        [0.96, 0],
      ],
    ],
  },
  ' ': { w: 0.3, lines: [] },
};

/** Widths of the text's glyphs and its whole length when 1 high, with `gap` between glyphs. */
export function measure(text: string, gap: number): number {
  return [...text].reduce((sum, c) => sum + glyph(c).w + gap, -gap);
}
function glyph(c: string) {
  const found = GLYPHS[c];
  if (!found) throw new Error(`No letter ${c} has been drawn.`);
  return found;
}

/**
 * Text as brush strokes. `at` maps a point of the running text (x along it, y from 0 at the letter tops to 1, both in
 * letter heights) to the art; `weight` is the stem's width there, mm.
 */
export function letters(
  text: string,
  gap: number,
  at: (x: number, y: number) => Pt,
  weight: (x: number) => number,
): Ring[] {
  const rings: Ring[] = [];
  let x = 0;
  for (const c of text) {
    const { w, lines } = glyph(c);
    for (const line of lines) {
      const start = x;
      const [first, last] = [line[0] as Pt, line[line.length - 1] as Pt];
      const loop = first[0] === last[0] && first[1] === last[1];
      const run = loop ? closedRun(line) : line.length > 2 ? through(line, false, 0.02) : dense(line);
      const path = run.map(([px, py]) => at(start + px, py));
      const stem = weight(start + w / 2);
      rings.push(
        stroke(path, (t, dx, dy) => {
          const upright = Math.abs(dy * 0.94 + dx * 0.34);
          const spread = loop ? 1 : 1 + 0.14 * upright ** 3 * (2 * t - 1) ** 4;
          return Math.max(0.5, stem * (0.5 + 0.5 * upright) * spread);
        }),
      );
    }
    x += w + gap;
  }
  return rings;
}
const dense = (line: readonly Pt[]): Pt[] => {
  const [a, b] = [line[0] as Pt, line[line.length - 1] as Pt];
  return Array.from(
    { length: 41 },
    (_, i) => [a[0] + ((b[0] - a[0]) * i) / 40, a[1] + ((b[1] - a[1]) * i) / 40] as const,
  );
};
export const straight =
  (x: number, y: number, height: number, deg = 0) =>
  (lx: number, ly: number): Pt =>
    placed([[lx * height, ly * height]], x, y, 1, 1, deg)[0] as Pt;
/** A closed stroke, run a little past its start so that its ends hide in one another. */
function closedRun(line: readonly Pt[]): Pt[] {
  const once = through(line.slice(0, -1), true, 0.02);
  return [...once, ...once.slice(0, 3)];
}
