import { pressTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { type MarkMean, meanReadings, type RegisterReading } from './registerReading.ts';
import { fitPairs, moveBy, type Pair } from './rigidFit.ts';
import { USUAL, usualWords } from './usual.ts';

export interface RegisterInput {
  readonly readings: readonly RegisterReading[];
  /** The two hinge clamps, mm on the face as seen; the one nearer the tail first or second, as you like. */
  readonly clamps: readonly [Pair, Pair];
}

export interface ClampMove {
  readonly x: Mm;
  readonly y: Mm;
  /** mm the frame moves there: to the nose, and up as seen. */
  readonly along: Mm;
  readonly across: Mm;
  /** In words a printer can follow. */
  readonly words: string;
}

export type ResidualMeaning = 'good' | 'stretched' | 'one-mark' | 'loose' | 'uneven' | 'unchecked';

export interface RegisterCorrection {
  /** The move of the screen: turn about mid-wheelbase, then shift; mm, and radians counter-clockwise as seen. */
  readonly turnRad: number;
  readonly shift: Pair;
  readonly clamps: readonly [ClampMove, ClampMove];
  readonly marks: readonly (MarkMean & {
    /** mm that stay at this mark after the move. */
    readonly left: Mm;
  })[];
  /** mm, root mean square of what the move leaves. */
  readonly rms: Mm;
  /** Print over film beyond the first pull: 0.001 is a millimetre a metre longer; null: too few marks to tell. */
  readonly stretch: number | null;
  readonly meaning: ResidualMeaning;
  readonly advice: string;
}

/** mm moves below this are within the reading. */
const STILL = 0.03;

function clampWords(name: string, along: number, across: number): string {
  const parts: string[] = [];
  if (Math.abs(along) >= STILL)
    parts.push(`${Math.abs(along).toFixed(2)} mm toward the ${along > 0 ? 'nose' : 'tail'}`);
  if (Math.abs(across) >= STILL)
    parts.push(`${Math.abs(across).toFixed(2)} mm ${across > 0 ? 'away from you' : 'toward you'}`);
  return `${name} clamp: ${parts.length === 0 ? 'leave it' : `move ${parts.join(' and ')}`}`;
}

/**
 * Turn and shift from marks where some have only one scale: least squares by Gauss and Newton, each scale one equation.
 * Null when the scales do not settle all three.
 */
function fitScales(marks: readonly MarkMean[]): { turnRad: number; shift: Pair } | null {
  let turnRad = 0;
  let shift: Pair = [0, 0];
  for (let round = 0; round < 20; round++) {
    const a = [0, 0, 0, 0, 0, 0];
    const b = [0, 0, 0];
    const add = (jx: number, jy: number, jt: number, r: number) => {
      const j = [jx, jy, jt];
      let k = 0;
      for (let i = 0; i < 3; i++) {
        for (let l = i; l < 3; l++) a[k++]! += (j[i] as number) * (j[l] as number);
        b[i]! -= (j[i] as number) * r;
      }
    };
    const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
    for (const mark of marks) {
      const [qx, qy] = [mark.x + (mark.along ?? 0), mark.y + (mark.across ?? 0)];
      const [mx, my] = [c * qx - s * qy + shift[0], s * qx + c * qy + shift[1]];
      // Turn in units of a metre, so that the three unknowns are alike in size.
      if (mark.along !== undefined) add(1, 0, (-s * qx - c * qy) / 1000, mx - mark.x);
      if (mark.across !== undefined) add(0, 1, (c * qx - s * qy) / 1000, my - mark.y);
    }
    const [xx, xy, xt, yy, yt, tt] = a as [number, number, number, number, number, number];
    const [bx, by, bt] = b as [number, number, number];
    const det = xx * (yy * tt - yt * yt) - xy * (xy * tt - yt * xt) + xt * (xy * yt - yy * xt);
    if (!(Math.abs(det) > 1e-9)) return null;
    const dx = (bx * (yy * tt - yt * yt) - xy * (by * tt - yt * bt) + xt * (by * yt - yy * bt)) / det;
    const dy = (xx * (by * tt - yt * bt) - bx * (xy * tt - yt * xt) + xt * (xy * bt - by * xt)) / det;
    const dt = (xx * (yy * bt - by * yt) - xy * (xy * bt - by * xt) + bx * (xy * yt - yy * xt)) / det;
    shift = [shift[0] + dx, shift[1] + dy];
    turnRad += dt / 1000;
    if (Math.hypot(dx, dy, dt) < 1e-13) break;
  }
  return { turnRad, shift };
}

/**
 * The best rigid move of the screen that brings a later pull onto the first, from vernier readings at two to four marks,
 * and how far each of two hinge clamps goes. The readings say where the print is; the screen moves the other way.
 */
export function registerCorrection(input: RegisterInput): Outcome<Calculation<RegisterCorrection>> {
  for (const { x, y, along, across } of input.readings) {
    const bad = outOfBounds({
      'place of a mark along': [x, { least: -3000, most: 3000, unit: 'mm' }],
      'place of a mark across': [y, { least: -1500, most: 1500, unit: 'mm' }],
      'reading along': [along ?? 0, { least: -50, most: 50, unit: 'mm' }],
      'reading across': [across ?? 0, { least: -50, most: 50, unit: 'mm' }],
    });
    if (bad) return bad;
  }
  const [c1, c2] = input.clamps;
  if (!(Math.hypot(c1[0] - c2[0], c1[1] - c2[1]) >= 20)) return pressTrouble.clampsAtOnePlace();
  const marks = meanReadings(input.readings).filter((m) => m.along !== undefined || m.across !== undefined);
  const whole = marks.filter((m) => m.along !== undefined && m.across !== undefined);
  const scales = marks.reduce(
    (n, m) => n + (m.along === undefined ? 0 : 1) + (m.across === undefined ? 0 : 1),
    0,
  );
  if (marks.length < 2 || scales < 3) return pressTrouble.tooFewScales(scales, marks.length);
  const allWhole = whole.length === marks.length;
  const target = whole.map((m): Pair => [m.x, m.y]);
  const printed = whole.map((m): Pair => [m.x + (m.along ?? 0), m.y + (m.across ?? 0)]);
  let move: { turnRad: number; shift: Pair };
  if (allWhole) {
    const fit = fitPairs(printed, target, false);
    if (!fit.ok) return fit;
    move = fit.value;
  } else {
    const fit = fitScales(marks);
    if (!fit) return pressTrouble.turnNotSettled();
    move = fit;
  }
  const at = (p: Pair) => moveBy({ ...move, scale: 1 }, p);
  const left = marks.map((m) => {
    const [x, y] = at([m.x + (m.along ?? 0), m.y + (m.across ?? 0)]);
    return Math.hypot(m.along === undefined ? 0 : x - m.x, m.across === undefined ? 0 : y - m.y);
  });
  const rms = Math.sqrt(left.reduce((a, r) => a + r * r, 0) / left.length);
  const similar = whole.length >= 2 ? fitPairs(printed, target, true) : null;
  const stretch = similar?.ok ? 1 / similar.value.scale - 1 : null;
  const withScale = similar?.ok ? similar.value.rms : rms;
  const { meaning, advice } = explain(marks, left, rms, scales, stretch, withScale);
  const nearTail = c1[0] <= c2[0] ? c1 : c2;
  const clampMove = (c: Pair): ClampMove => {
    const [x, y] = at(c);
    const name =
      Math.abs(c1[0] - c2[0]) >= 20
        ? c === nearTail
          ? 'Tail-side'
          : 'Nose-side'
        : c[1] > (c === c1 ? c2 : c1)[1]
          ? 'Far'
          : 'Near';
    return {
      x: c[0],
      y: c[1],
      along: x - c[0],
      across: y - c[1],
      words: clampWords(name, x - c[0], y - c[1]),
    };
  };
  return done({
    result: {
      ...move,
      clamps: [clampMove(c1), clampMove(c2)],
      marks: marks.map((m, i) => ({ ...m, left: left[i] as number })),
      rms,
      stretch,
      meaning,
      advice,
    },
    formula:
      'min Σ|R(φ)·q + t − p|², q = p + reading; rigid closed form z = Σ q̄p / |Σ q̄p| about the means; clamp move = R(φ)·c + t − c',
    assumptions: [
      'You stand with the nose on your right; the frame turns and shifts as one piece on its two clamps.',
      usualWords('A reading is good to', USUAL.readingError),
      'Repeated readings of a mark are averaged.',
    ],
  });
}

function explain(
  marks: readonly MarkMean[],
  left: readonly number[],
  rms: number,
  scales: number,
  stretch: number | null,
  withScale: number,
): { meaning: ResidualMeaning; advice: string } {
  const fine = 2 * USUAL.readingError.value;
  const scatter = Math.max(...marks.map((m) => m.scatter));
  if (scatter > 2 * fine)
    return {
      meaning: 'loose',
      advice: `The same mark reads up to ${scatter.toFixed(2)} mm apart from its mean: the screen is loose in its clamps, the deck moves on the jig, or the squeegee drags the mesh. Mend that before moving the clamps.`,
    };
  if (scales <= 3)
    return {
      meaning: 'unchecked',
      advice: 'Three scales settle the move but do not check it: read another mark.',
    };
  if (rms <= fine)
    return {
      meaning: 'good',
      advice: `After the move ${rms.toFixed(2)} mm are left, no more than the reading itself.`,
    };
  if (stretch !== null && withScale < rms / 2)
    return {
      meaning: 'stretched',
      advice: `The print is ${Math.abs(stretch * 100).toFixed(3)} % ${stretch > 0 ? 'longer' : 'shorter'} than the first pull, which no clamp can mend: the film changed size, or this mesh stretches ${stretch > 0 ? 'more' : 'less'}. Compare the films, the mesh tension and the off-contact; if all pulls do it, enter it as measured growth.`,
    };
  const worst = left.indexOf(Math.max(...left));
  const others = left.filter((_, i) => i !== worst);
  if (left.length >= 3 && (left[worst] as number) > 1.4 * Math.max(...others)) {
    const m = marks[worst] as MarkMean;
    return {
      meaning: 'one-mark',
      advice: `The mark at ${m.x.toFixed(0)}, ${m.y.toFixed(0)} mm disagrees with the others by ${(left[worst] as number).toFixed(2)} mm: read it again; if it stands, a joint of the film has moved there, or the deck lifted.`,
    };
  }
  return {
    meaning: 'uneven',
    advice: `${rms.toFixed(2)} mm are left that no move takes away: the deck moved between pulls, the film's joints are off, or the screen is loose. Print and read once more.`,
  };
}
