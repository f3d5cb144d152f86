import type { FaceJob } from '../../core/job/index.ts';
import type { FaceShape } from './faceShape.ts';
import { at, inMm, type Pen, slip, trace } from './pen.ts';

/** A line to which a dragged piece of art has snapped. */
export interface SnapLine {
  readonly along: 's' | 't';
  readonly at: number;
  readonly name: string;
}

/** The printable edge, dashed; the centreline, dash and dot. */
export function drawGuides(pen: Pen, shape: FaceShape): void {
  const { ctx, colours } = pen;
  inMm(pen, (mm) => {
    const px = 1 / pen.view.scale;
    mm.beginPath();
    for (const ring of shape.printable) trace(mm, ring);
    mm.lineWidth = 1.2 * px;
    mm.setLineDash([6 * px, 4 * px]);
    mm.strokeStyle = 'rgba(255, 250, 240, 0.9)';
    mm.stroke();
    mm.lineDashOffset = 5 * px;
    mm.strokeStyle = 'rgba(40, 24, 10, 0.85)';
    mm.stroke();
  });
  const from = at(pen, shape.box.x - 14, 0);
  const to = at(pen, shape.box.x + shape.box.width + 14, 0);
  ctx.save();
  ctx.setLineDash([12, 4, 2, 4]);
  ctx.strokeStyle = colours.faint;
  ctx.beginPath();
  ctx.moveTo(from.x, from.y);
  ctx.lineTo(to.x, to.y);
  ctx.stroke();
  ctx.restore();
}

/** The user's own lines, over the deck and through both rulers. */
export function drawOwnGuides(pen: Pen, guides: NonNullable<FaceJob['guides']>): void {
  const { ctx, width, height, colours } = pen;
  ctx.save();
  ctx.strokeStyle = colours.accent;
  ctx.lineWidth = 1;
  ctx.beginPath();
  for (const { along, at: place } of guides) {
    const p = at(pen, along === 's' ? place : 0, along === 's' ? 0 : place);
    // Half pixels make hairlines crisp.
    if (along === 's') {
      ctx.moveTo(Math.round(p.x) + 0.5, 0);
      ctx.lineTo(Math.round(p.x) + 0.5, height);
    } else {
      ctx.moveTo(0, Math.round(p.y) + 0.5);
      ctx.lineTo(width, Math.round(p.y) + 0.5);
    }
  }
  ctx.stroke();
  ctx.restore();
}

/** Where the kicks begin to bend. */
export function drawKicks(pen: Pen, shape: FaceShape): void {
  const { ctx } = pen;
  for (const [i, s] of shape.kicks.entries()) {
    const top = at(pen, s, shape.box.y + shape.box.height);
    const low = at(pen, s, shape.box.y);
    ctx.save();
    ctx.setLineDash([2, 4]);
    ctx.lineWidth = 1.5;
    ctx.strokeStyle = 'rgba(40, 24, 10, 0.7)';
    ctx.beginPath();
    ctx.moveTo(top.x, top.y);
    ctx.lineTo(low.x, low.y);
    ctx.stroke();
    ctx.restore();
    slip(pen, i === 0 ? 'tail bends here' : 'nose bends here', top.x, top.y - 12, { size: 11, weight: 500 });
  }
}

/** Lines that dragged art has snapped to, named. */
export function drawSnaps(pen: Pen, lines: readonly SnapLine[]): void {
  const { ctx, width, height, colours } = pen;
  for (const line of lines) {
    const p = line.along === 's' ? at(pen, line.at, 0) : at(pen, 0, line.at);
    ctx.save();
    ctx.strokeStyle = colours.accent;
    ctx.lineWidth = 1.5;
    ctx.beginPath();
    if (line.along === 's') {
      ctx.moveTo(p.x, 0);
      ctx.lineTo(p.x, height);
    } else {
      ctx.moveTo(0, p.y);
      ctx.lineTo(width, p.y);
    }
    ctx.stroke();
    ctx.restore();
    if (line.along === 's') slip(pen, line.name, p.x, 36, { size: 11, fill: colours.accent });
    else slip(pen, line.name, 34, p.y, { size: 11, align: 'left', fill: colours.accent });
  }
}

/** A place that a problem speaks of. */
export function drawPointer(pen: Pen, s: number, t: number): void {
  const { ctx, colours } = pen;
  const p = at(pen, s, t);
  ctx.save();
  for (const [radius, stroke, width] of [
    [19, colours.paper, 6],
    [19, colours.warn, 3],
  ] as const) {
    ctx.strokeStyle = stroke;
    ctx.lineWidth = width;
    ctx.beginPath();
    ctx.arc(p.x, p.y, radius, 0, 7);
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      ctx.moveTo(p.x + dx * 12, p.y + dy * 12);
      ctx.lineTo(p.x + dx * 28, p.y + dy * 28);
    }
    ctx.stroke();
  }
  ctx.restore();
}
