import type { Art } from '../../core/job/index.ts';
import { halfExtent } from './alignPieces.ts';

/** The upright box about turned pieces, mm: its middle and size. */
export function commonBox(art: readonly Art[]): {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
} {
  const low = { x: Infinity, y: Infinity };
  const high = { x: -Infinity, y: -Infinity };
  for (const piece of art) {
    const half = halfExtent(piece);
    for (const axis of ['x', 'y'] as const) {
      low[axis] = Math.min(low[axis], piece[axis] - half[axis]);
      high[axis] = Math.max(high[axis], piece[axis] + half[axis]);
    }
  }
  return {
    x: (low.x + high.x) / 2,
    y: (low.y + high.y) / 2,
    width: high.x - low.x,
    height: high.y - low.y,
  };
}

/** The pieces moved so that the middle of their common box lies at `to`, or scaled about it by `scale`. */
export function moveTogether(
  art: readonly Art[],
  to: { readonly x?: number; readonly y?: number; readonly scale?: number },
): Map<string, Partial<Art>> {
  const box = commonBox(art);
  const scale = to.scale ?? 1;
  const [x, y] = [to.x ?? box.x, to.y ?? box.y];
  return new Map(
    art.map((a) => [
      a.id,
      {
        x: x + (a.x - box.x) * scale,
        y: y + (a.y - box.y) * scale,
        width: Math.max(0.1, a.width * scale),
        height: Math.max(0.1, a.height * scale),
      },
    ]),
  );
}
