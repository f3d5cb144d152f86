import type { FaceShape } from './faceShape.ts';
import { at, type Pen, slip } from './pen.ts';

const arrow = (ctx: CanvasRenderingContext2D, x: number, y: number, dx: number, dy: number) => {
  ctx.moveTo(x, y);
  ctx.lineTo(x + dx * 8 - dy * 3.5, y + dy * 8 - dx * 3.5);
  ctx.moveTo(x, y);
  ctx.lineTo(x + dx * 8 + dy * 3.5, y + dy * 8 + dx * 3.5);
};

/** A dimension line with its measure, `offset` CSS pixels beside the deck. */
function along(pen: Pen, from: number, to: number, y: number, edge: number, text: string): void {
  const { ctx, colours } = pen;
  const a = at(pen, from, 0).x;
  const b = at(pen, to, 0).x;
  ctx.save();
  ctx.strokeStyle = colours.ink;
  ctx.lineWidth = 1.25;
  ctx.beginPath();
  ctx.moveTo(a, y);
  ctx.lineTo(b, y);
  arrow(ctx, a, y, 1, 0);
  arrow(ctx, b, y, -1, 0);
  ctx.stroke();
  ctx.lineWidth = 1;
  ctx.globalAlpha = 0.55;
  ctx.beginPath();
  for (const x of [a, b]) {
    ctx.moveTo(x, edge);
    ctx.lineTo(x, y + (y > edge ? 5 : -5));
  }
  ctx.stroke();
  ctx.restore();
  slip(pen, text, (a + b) / 2, y, { size: 13, weight: 650 });
}

/** Lengths along the wood, width and wheelbase, as the trade measures them. */
export function drawMeasures(pen: Pen, shape: FaceShape, width: number, say: (mm: number) => string): void {
  const { ctx, colours } = pen;
  const { box, inner, outer } = shape;
  const low = at(pen, 0, box.y).y;
  const middle = at(pen, 0, 0).y;
  const row = low + 20;
  along(pen, box.x, outer[0], row, middle, `tail ${say(outer[0] - box.x)}`);
  along(pen, inner[0], inner[1], row, middle, `wheelbase ${say(inner[1] - inner[0])}`);
  along(pen, outer[1], box.x + box.width, row, middle, `nose ${say(box.x + box.width - outer[1])}`);
  along(pen, box.x, box.x + box.width, row + 27, middle, `${say(box.width)} along the wood`);
  const x = at(pen, box.x + box.width, 0).x + 48;
  const top = at(pen, 0, box.y + box.height).y;
  ctx.save();
  ctx.strokeStyle = colours.ink;
  ctx.lineWidth = 1.25;
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, low);
  arrow(ctx, x, top, 0, 1);
  arrow(ctx, x, low, 0, -1);
  ctx.stroke();
  ctx.restore();
  slip(pen, say(width), x, (top + low) / 2, { size: 13, weight: 650 });
}
