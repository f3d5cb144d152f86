import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface MoireInput {
  readonly meshPerCm: number;
  /** Degrees of the threads to the deck's centreline. */
  readonly meshAngleDeg: number;
  /** Lines per inch. */
  readonly lpi: number;
  readonly screenAngleDeg: number;
  /** Beats with this period or longer, mm, are seen. */
  readonly visible?: Mm;
}

export interface Beat {
  readonly perCm: number;
  /** mm; null: no beat at all, mesh and dots fall together and the tone depends on how. */
  readonly period: Mm | null;
  /** Degrees, direction of the beat vector, 0 to 180. */
  readonly angleDeg: number;
  readonly meshOrder: readonly [number, number];
  readonly screenOrder: readonly [number, number];
}

export interface Moire {
  /** Slowest first. */
  readonly beats: readonly Beat[];
  readonly worst: Beat;
  readonly seen: boolean;
  /** Angles to the threads, degrees, with the least period at this ruling. */
  readonly angles: readonly { readonly angleDeg: number; readonly period: Mm }[];
  /** Rulings near the wanted one with the least period at this angle. */
  readonly rulings: readonly { readonly lpi: number; readonly period: Mm }[];
}

const MESH_ORDER = 1;
const SCREEN_ORDER = 5;
/** lines/cm under which two lattices fall together: a beat longer than 10 m. */
const NOTHING = 1e-5;

/** The beats of mesh and halftone: |m₁u₁ + m₂u₂ − (h₁v₁ + h₂v₂)| over the low orders, opposite signs once. */
export function beatsOf(input: MoireInput): Beat[] {
  const line = input.lpi / 2.54;
  const mesh = vectors(input.meshPerCm, input.meshAngleDeg);
  const screen = vectors(line, input.screenAngleDeg);
  const beats: Beat[] = [];
  for (let m1 = -MESH_ORDER; m1 <= 0; m1++)
    for (let m2 = -MESH_ORDER; m2 <= MESH_ORDER; m2++) {
      if (m1 === 0 && m2 >= 0) continue;
      const mx = m1 * mesh.a[0] + m2 * mesh.b[0];
      const my = m1 * mesh.a[1] + m2 * mesh.b[1];
      for (let h1 = -SCREEN_ORDER; h1 <= SCREEN_ORDER; h1++)
        for (let h2 = -SCREEN_ORDER; h2 <= SCREEN_ORDER; h2++) {
          if (h1 === 0 && h2 === 0) continue;
          const x = mx - (h1 * screen.a[0] + h2 * screen.b[0]);
          const y = my - (h1 * screen.a[1] + h2 * screen.b[1]);
          const perCm = Math.hypot(x, y);
          const zero = perCm < NOTHING;
          beats.push({
            perCm: zero ? 0 : perCm,
            period: zero ? null : 10 / perCm,
            angleDeg: ((Math.atan2(y, x) * 180) / Math.PI + 360) % 180,
            meshOrder: [m1, m2],
            screenOrder: [h1, h2],
          });
        }
    }
  const order = (beat: Beat) =>
    Math.abs(beat.screenOrder[0]) +
    Math.abs(beat.screenOrder[1]) +
    Math.abs(beat.meshOrder[0]) +
    Math.abs(beat.meshOrder[1]);
  return beats.sort((a, b) => a.perCm - b.perCm || order(a) - order(b));
}

function vectors(perCm: number, angleDeg: number) {
  const turn = (angleDeg * Math.PI) / 180;
  const [c, s] = [perCm * Math.cos(turn), perCm * Math.sin(turn)];
  return { a: [c, s] as const, b: [-s, c] as const };
}

/** The longest period, mm, of a setting; Infinity when the lattices fall together. */
const longest = (input: MoireInput): number => beatsOf(input)[0]?.period ?? Number.POSITIVE_INFINITY;

/** Moiré of a halftone on a mesh: beats, whether they show, and angles and rulings that are clear of them. */
export function moire(input: MoireInput): Outcome<Calculation<Moire>> {
  const bad = outOfBounds({
    'mesh count': [input.meshPerCm, { least: 5, most: 250, unit: 'threads/cm' }],
    'mesh angle': [input.meshAngleDeg, { least: -180, most: 180, unit: 'degrees' }],
    'halftone ruling': [input.lpi, { least: 5, most: 200, unit: 'lpi' }],
    'halftone angle': [input.screenAngleDeg, { least: -180, most: 180, unit: 'degrees' }],
    'period that is seen': [input.visible ?? 1, { least: 0.05, most: 100, unit: 'mm' }],
  });
  if (bad) return bad;
  const visible = input.visible ?? USUAL.visiblePeriod.value;
  const beats = beatsOf(input).slice(0, 12);
  const worst = beats[0] as Beat;
  const angles: { angleDeg: number; period: number }[] = [];
  for (let angleDeg = 0; angleDeg <= 45; angleDeg += 0.5)
    angles.push({ angleDeg, period: longest({ ...input, screenAngleDeg: input.meshAngleDeg + angleDeg }) });
  const rulings: { lpi: number; period: number }[] = [];
  for (let i = -20; i <= 20; i++) {
    const lpi = Number((input.lpi * (1 + i / 100)).toFixed(1));
    rulings.push({ lpi, period: longest({ ...input, lpi }) });
  }
  const calm = <T extends { period: number }>(list: T[]) =>
    list.sort((a, b) => a.period - b.period).slice(0, 5);
  return done({
    result: {
      beats,
      worst,
      seen: worst.period === null || worst.period >= visible,
      angles: calm(angles),
      rulings: calm(rulings),
    },
    formula:
      'beat = |m₁u₁ + m₂u₂ − (h₁v₁ + h₂v₂)| over mesh orders to 1 and halftone orders to 5; period = 1/beat',
    assumptions: [
      usualWords('Seen from a period of', USUAL.visiblePeriod),
      'Vectors of mesh and halftone as in I. Amidror, The Theory of the Moiré Phenomenon (from memory); low orders are the strong ones.',
      'A steady mesh: stretched or skewed mesh beats differently, so print a test patch (the magazine Screen Printing: no ratio predicts it reliably).',
    ],
  });
}
