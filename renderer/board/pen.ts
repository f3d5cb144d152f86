import type { Ring } from '../../core/units/index.ts';
import { toScreen, type View } from '../state/index.ts';

/** Colours of the board's lines, from the page's own style sheet. */
export interface BoardColours {
  readonly ground: string;
  readonly ink: string;
  readonly faint: string;
  readonly accent: string;
  readonly paper: string;
  readonly warn: string;
  readonly good: string;
  readonly font: string;
  /** How many times its usual size the page's type has: more in a very large window. */
  readonly size: number;
}

/** What every drawing needs: a canvas in CSS pixels, and where the board looks. */
export interface Pen {
  readonly ctx: CanvasRenderingContext2D;
  readonly width: number;
  readonly height: number;
  readonly view: View;
  readonly colours: BoardColours;
}

export const at = (pen: Pen, s: number, t: number) => toScreen(pen.view, pen.width, pen.height, s, t);

/** Draws with the canvas in surface mm, +y up; lines must state their width in mm. */
export function inMm(pen: Pen, draw: (ctx: CanvasRenderingContext2D) => void): void {
  const { ctx, view, width, height } = pen;
  ctx.save();
  ctx.transform(
    view.scale,
    0,
    0,
    -view.scale,
    width / 2 - view.s * view.scale,
    height / 2 + view.t * view.scale,
  );
  draw(ctx);
  ctx.restore();
}

/** Adds a ring to the current path. */
export function trace(ctx: CanvasRenderingContext2D, ring: Ring): void {
  for (const [i, [x, y]] of ring.entries())
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  ctx.closePath();
}

/** A picture whose row 0 is the top, over a box in surface mm. */
export function stamp(
  ctx: CanvasRenderingContext2D,
  picture: CanvasImageSource,
  box: { x: number; y: number; width: number; height: number },
): void {
  ctx.save();
  ctx.translate(box.x, box.y + box.height);
  ctx.scale(1, -1);
  ctx.drawImage(picture, 0, 0, box.width, box.height);
  ctx.restore();
}

/** Text on a small slip of the ground's colour, so that it reads over anything. */
export function slip(
  pen: Pen,
  text: string,
  x: number,
  y: number,
  options: { size?: number; align?: CanvasTextAlign; fill?: string; back?: string; weight?: number } = {},
): void {
  const { ctx, colours } = pen;
  const size = (options.size ?? 12) * colours.size;
  ctx.save();
  ctx.font = `${options.weight ?? 600} ${size}px ${colours.font}`;
  const width = ctx.measureText(text).width;
  const align = options.align ?? 'center';
  const left = align === 'center' ? x - width / 2 : align === 'right' ? x - width : x;
  ctx.fillStyle = options.back ?? colours.ground;
  ctx.fillRect(left - 5, y - size * 0.72, width + 10, size * 1.44);
  ctx.fillStyle = options.fill ?? colours.ink;
  ctx.textBaseline = 'middle';
  ctx.textAlign = 'left';
  ctx.fillText(text, left, y + size * 0.06);
  ctx.restore();
}
