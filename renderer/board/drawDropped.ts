import type { DroppedPlace } from '../../core/droppedPlaces.ts';
import { at, type Pen } from './pen.ts';

/** More marks than this would hide the deck; the largest are marked. */
const MOST = 400;

/** Small rings where specks were dropped, squares where holes were filled. */
export function drawDropped(pen: Pen, places: readonly DroppedPlace[]): void {
  const { ctx, colours } = pen;
  ctx.save();
  for (const [stroke, width] of [
    ['rgba(255, 250, 240, 0.95)', 4],
    [colours.warn, 1.8],
  ] as const) {
    ctx.strokeStyle = stroke;
    ctx.lineWidth = width;
    ctx.beginPath();
    for (const { ink, s, t } of places.slice(0, MOST)) {
      const p = at(pen, s, t);
      if (ink === null) ctx.rect(p.x - 6, p.y - 6, 12, 12);
      else {
        ctx.moveTo(p.x + 7, p.y);
        ctx.arc(p.x, p.y, 7, 0, 7);
      }
    }
    ctx.stroke();
  }
  ctx.restore();
}
