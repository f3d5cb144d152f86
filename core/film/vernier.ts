import { lettering } from './lettering.ts';
import { line, place, type Shape } from './shape.ts';

/** Ticks of a scale count from the long one, -4 to 5. */
export const VERNIER_FIRST = -4;
export const VERNIER_TICKS = 10;
/** mm between ticks of the fixed scale and of the moving one: they part by 0.1 mm a tick, which is the reading. */
export const FIXED_PITCH = 1;
export const MOVING_PITCH = 0.9;
const WEIGHT = 0.2;
const TICK = 1.8;
const LONG_TICK = 2.6;
/** mm of a pair along its scale, and across it. */
export const VERNIER_LENGTH = 10;
export const VERNIER_DEPTH = 2 * LONG_TICK;

/**
 * One scale, along +x with its long tick at x = 0: `fixed` stands above y = 0, `moving` hangs below, so that the two meet
 * on the line. The tick where both run through in one straight line gives the shift of `moving` in tenths of a
 * millimetre, positive towards +x (the principle of the vernier, by any handbook of measuring).
 */
export const vernierScale = (which: 'fixed' | 'moving'): readonly Shape[] =>
  which === 'fixed' ? FIXED_SCALE : MOVING_SCALE;

function drawScale(which: 'fixed' | 'moving'): Shape[] {
  const pitch = which === 'fixed' ? FIXED_PITCH : MOVING_PITCH;
  const side = which === 'fixed' ? 1 : -1;
  const shapes: Shape[] = [];
  for (let i = 0; i < VERNIER_TICKS; i++) {
    const n = VERNIER_FIRST + i;
    const length = n === 0 ? LONG_TICK : TICK;
    shapes.push(line(WEIGHT, [n * pitch, 0], [n * pitch, side * length]));
  }
  return shapes;
}

const FIXED_SCALE = drawScale('fixed');
const MOVING_SCALE = drawScale('moving');

/**
 * The pull a pair belongs to, beside its moving scale. Scales lie on the film in all directions: a line under 6 and 9 tells
 * one from the other.
 */
export function vernierNumber(pull: number): Shape[] {
  const { shapes, width } = lettering(String(pull), 2.2, 0.25);
  if (pull !== 6 && pull !== 9) return place(shapes, [1, 0, 0, 1, 6.2, -2.4]);
  return place([...shapes, line(0.25, [0, -0.5], [width, -0.5])], [1, 0, 0, 1, 6.2, -1.9]);
}
