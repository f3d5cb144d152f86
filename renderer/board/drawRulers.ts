import { MM_PER_INCH } from '../../core/units/index.ts';
import { toSurfacePoint } from '../state/index.ts';
import { at, type Pen } from './pen.ts';

/** Width of a ruler where the page's type has its usual size, CSS pixels. */
export const RULER = 22;

/** Steps between numbered ticks, in the ruler's unit. */
const STEPS_MM = [1, 2, 5, 10, 20, 50, 100, 200, 500];
const STEPS_IN = [0.125, 0.25, 0.5, 1, 2, 4, 8, 16];

/** Rulers along the top and the left, from mid-wheelbase and the centreline. */
export function drawRulers(pen: Pen, units: 'mm' | 'in'): void {
  const { ctx, width, height, view, colours } = pen;
  const { size } = colours;
  const ruler = RULER * size;
  const unit = units === 'mm' ? 1 : MM_PER_INCH;
  const steps = units === 'mm' ? STEPS_MM : STEPS_IN;
  const step = steps.find((n) => n * unit * view.scale >= 56 * size) ?? steps.at(-1)!;
  const minor = step / (units === 'mm' ? 5 : 4);
  const low = toSurfacePoint(view, width, height, 0, height);
  const high = toSurfacePoint(view, width, height, width, 0);
  ctx.save();
  ctx.fillStyle = colours.paper;
  ctx.fillRect(0, 0, width, ruler);
  ctx.fillRect(0, 0, ruler, height);
  ctx.strokeStyle = colours.faint;
  ctx.fillStyle = colours.faint;
  ctx.lineWidth = 1;
  ctx.font = `500 ${10 * size}px ${colours.font}`;
  ctx.textBaseline = 'middle';
  const label = (n: number) => String(Number(n.toFixed(3)));
  ctx.beginPath();
  for (let i = Math.floor(low.s / unit / minor); i <= high.s / unit / minor; i++) {
    const x = Math.round(at(pen, i * minor * unit, 0).x) + 0.5;
    if (x < ruler) continue;
    const major = i % Math.round(step / minor) === 0;
    ctx.moveTo(x, ruler);
    ctx.lineTo(x, major ? ruler - 9 * size : ruler - 4 * size);
    if (major) ctx.fillText(label(i * minor), x + 3, 8 * size);
  }
  for (let i = Math.floor(low.t / unit / minor); i <= high.t / unit / minor; i++) {
    const y = Math.round(at(pen, 0, i * minor * unit).y) + 0.5;
    if (y < ruler) continue;
    const major = i % Math.round(step / minor) === 0;
    ctx.moveTo(ruler, y);
    ctx.lineTo(major ? ruler - 9 * size : ruler - 4 * size, y);
    if (major) {
      ctx.save();
      ctx.translate(8 * size, y - 3);
      ctx.rotate(-Math.PI / 2);
      ctx.fillText(label(i * minor), 0, 0);
      ctx.restore();
    }
  }
  ctx.stroke();
  ctx.fillStyle = colours.paper;
  ctx.fillRect(0, 0, ruler, ruler);
  ctx.fillStyle = colours.ink;
  ctx.font = `700 ${10 * size}px ${colours.font}`;
  ctx.textAlign = 'center';
  ctx.fillText(units, ruler / 2, ruler / 2 + 1);
  ctx.restore();
}
