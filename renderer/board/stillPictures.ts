import type { Pen } from './pen.ts';

/** Drawings kept at once, so that going back and forth between two stations finds both. */
const MOST = 3;

interface Still {
  readonly key: readonly unknown[];
  /** Drawn once and found wanted again; null until then, for what moves is never drawn twice the same. */
  sheet: HTMLCanvasElement | null;
}

const same = (a: readonly unknown[], b: readonly unknown[]) =>
  a.length === b.length && a.every((part, i) => Object.is(part, b[i]));

/**
 * Draws a thing over the whole canvas, or lays down the pixels it had when nothing that it is made of has changed since.
 * Shadow, grain and a fine picture made small take longer than a frame where a browser draws without a graphics card,
 * and the board is drawn anew at every move of the pointer.
 */
export class StillPictures {
  private kept: Still[] = [];

  /** `made` is all that the drawing depends on besides the pen's canvas and view. */
  draw(pen: Pen, made: readonly unknown[], draw: (pen: Pen) => void): void {
    const { ctx, width, height, view } = pen;
    const { a: dots } = ctx.getTransform();
    const key = [width, height, dots, view.scale, view.s, view.t, ...made];
    const found = this.kept.find((still) => same(still.key, key)) ?? { key, sheet: null };
    const wanted = this.kept.includes(found);
    this.kept = [found, ...this.kept.filter((still) => still !== found)].slice(0, MOST);
    if (!wanted) {
      draw(pen);
      return;
    }
    if (!found.sheet) {
      found.sheet = document.createElement('canvas');
      found.sheet.width = Math.max(1, Math.round(width * dots));
      found.sheet.height = Math.max(1, Math.round(height * dots));
      const sheet = found.sheet.getContext('2d')!;
      sheet.scale(dots, dots);
      draw({ ...pen, ctx: sheet });
    }
    ctx.drawImage(found.sheet, 0, 0, width, height);
  }
}
