import { describe, expect, test } from 'vitest';
import { type Deck, deckTemplate, FACES, type Face, makeSurface } from '../../../core/deck/index.ts';
import { facePreview } from '../../../core/facePreview.ts';
import { inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { getBit, type Picture } from '../../../core/raster/index.ts';
import { MM_PER_INCH } from '../../../core/units/index.ts';

/** A checkerboard over a plan outline: squares of `SQUARE` mm, a corner of one on mid-wheelbase. */
const SQUARE = 25;
const COLS = 36;
const ROWS = 10;
/** Points of the drawing to a mm. */
const FINE = 4;
const DPI = 400;
/** mm: what the issue asks of the wrap. */
const TRUE_TO = 0.1;

function checkerboard(): Picture {
  const side = SQUARE * FINE;
  const [width, height] = [COLS * side, ROWS * side];
  const words = new Uint32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      // Bytes R, G, B, A: black and a light yellow.
      words[y * width + x] =
        (Math.floor(x / side) + Math.floor(y / side)) % 2 === 0 ? 0xff181818 : 0xff50d0f0;
  return { width, height, data: new Uint8Array(words.buffer) };
}

function jobOf(deck: Deck, face: Face, wrap: 'plan' | 'surface'): Job {
  const job = newJob({ name: 'Squares', deck });
  const black = inkFrom({ name: 'Black', hex: '#181818' }, []);
  const yellow = inkFrom({ name: 'Yellow', hex: '#f0d050' }, [black]);
  const art = {
    id: 'squares',
    name: 'squares.png',
    hash: 'c'.repeat(64),
    mediaType: 'image/png' as const,
    widthPx: COLS * SQUARE * FINE,
    heightPx: ROWS * SQUARE * FINE,
    width: COLS * SQUARE,
    height: ROWS * SQUARE,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap,
    ground: null,
    hidden: false,
  };
  const settings = { ...job.faces[face], art: [art], inks: [black, yellow], smallest: 0, railMargin: 8 };
  return { ...job, faces: { ...job.faces, [face]: settings } };
}

/**
 * The greatest distance, mm in plan, of the print's changes between black and yellow from the nearest line of the board,
 * looked at straight down on the 3-D model; and how many changes there were along and across.
 */
function worstOff(deck: Deck, face: Face, wrap: 'plan' | 'surface') {
  const job = jobOf(deck, face, wrap);
  const picture = checkerboard();
  const made = facePreview({
    job,
    face,
    pictures: new Map([['c'.repeat(64), picture]]),
    dpi: DPI,
    traps: false,
  });
  if (!made.ok) throw new Error(made.reason);
  const { box, width, height, separations } = made.value;
  const [black, yellow] = separations;
  if (!black || !yellow) throw new Error('Two inks were expected.');
  const surface = makeSurface(deck, face);
  const mm = MM_PER_INCH / DPI;
  const top = box.y + box.height;
  const seen = (px: number, py: number) => {
    const { x, y } = surface.toSpace({ s: box.x + px * mm, t: top - py * mm });
    return { x: x as number, y: y as number };
  };
  const fromLine = (at: number) => Math.abs(at - Math.round(at / SQUARE) * SQUARE);
  const out = { along: 0, across: 0, alongCount: 0, acrossCount: 0 };
  /** mm: changes this near a corner of four squares belong to either line. */
  const corner = 1;
  const change = (ax: number, ay: number, bx: number, by: number) =>
    (getBit(black, ax, ay) && getBit(yellow, bx, by)) || (getBit(yellow, ax, ay) && getBit(black, bx, by));
  // The change lies half-way between two points' middles, known to half a point: 0.03 mm.
  for (let y = 3; y < height - 1; y += 7)
    for (let x = 0; x + 1 < width; x++) {
      if (!change(x, y, x + 1, y)) continue;
      const p = seen(x + 1, y + 0.5);
      if (fromLine(p.y) < corner) continue;
      out.along = Math.max(out.along, fromLine(p.x));
      out.alongCount++;
    }
  for (let x = 3; x < width - 1; x += 7)
    for (let y = 0; y + 1 < height; y++) {
      if (!change(x, y, x, y + 1)) continue;
      const p = seen(x + 0.5, y + 1);
      if (fromLine(p.x) < corner) continue;
      out.across = Math.max(out.across, fromLine(p.y));
      out.acrossCount++;
    }
  return out;
}

const steep: Deck = (() => {
  const usual = deckTemplate('popsicle-8.5');
  if (!usual) throw new Error('A template is missing.');
  return {
    ...usual,
    concave: { profile: 'flat-centre', depth: 16, flatWidth: 60, fade: 90 },
    nose: { ...usual.nose, angleDeg: 27 },
    tail: { ...usual.tail, angleDeg: 24 },
  };
})();
const decks = [
  ['popsicle-8.25', deckTemplate('popsicle-8.25') as Deck],
  ['a deep flat-centre concave that fades into steep kicks', steep],
] as const;

describe('a checkerboard drawn in plan looks true, straight down on the bent board, to 0.1 mm', () => {
  for (const [name, deck] of decks)
    for (const face of FACES)
      test(`${name}, ${face}`, () => {
        const off = worstOff(deck, face, 'plan');
        expect(off.along).toBeLessThan(TRUE_TO);
        expect(off.across).toBeLessThan(TRUE_TO);
        // Some 30 lines across 120 rows looked at, and 8 along some 1700 columns: the board was really there.
        expect(off.alongCount).toBeGreaterThan(4000);
        expect(off.acrossCount).toBeGreaterThan(8000);
      });
});

test('the same board laid along the wood instead does not look true: the check can fail', () => {
  const off = worstOff(decks[0][1], 'bottom', 'surface');
  expect(off.along).toBeGreaterThan(1);
  expect(off.across).toBeGreaterThan(0.2);
});
