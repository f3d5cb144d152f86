import { blankMask, blankPlane, downsample, fillRings, type Plane } from '../raster/index.ts';

/** A region drawn by hand, in the art's own pixels: x to the right, y down, the art's top left corner at 0, 0. */
export type HandShape =
  | {
      readonly kind: 'lasso';
      readonly ring: readonly (readonly [number, number])[];
    }
  | {
      readonly kind: 'brush';
      /** Half the brush's width. */
      readonly radius: number;
      readonly path: readonly (readonly [number, number])[];
    };

/** How a window of the art lies over its pixels: window point = art point × scale − offset. */
export interface ArtFrame {
  readonly scaleX: number;
  readonly scaleY: number;
  readonly offsetX: number;
  readonly offsetY: number;
}

/** How much of each point of a part of the window a shape covers, 0 to 255. */
export interface HandCover {
  readonly x: number;
  readonly y: number;
  readonly plane: Plane;
}

/** Samples along each side of a point: edges of a lasso come out smooth. */
const FINER = 4;

/** What of the window, in points of it, a shape can reach; null: none. */
function reachOf(shape: HandShape, frame: ArtFrame, width: number, height: number) {
  const points = shape.kind === 'lasso' ? shape.ring : shape.path;
  const more = shape.kind === 'lasso' ? 0 : shape.radius;
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x - more);
    y0 = Math.min(y0, y - more);
    x1 = Math.max(x1, x + more);
    y1 = Math.max(y1, y + more);
  }
  const left = Math.max(0, Math.floor(x0 * frame.scaleX - frame.offsetX) - 1);
  const top = Math.max(0, Math.floor(y0 * frame.scaleY - frame.offsetY) - 1);
  const right = Math.min(width, Math.ceil(x1 * frame.scaleX - frame.offsetX) + 1);
  const bottom = Math.min(height, Math.ceil(y1 * frame.scaleY - frame.offsetY) + 1);
  return right > left && bottom > top ? { left, top, width: right - left, height: bottom - top } : null;
}

/** What a shape covers of a window of `width` × `height` points; null where it reaches none of it. */
export function handCover(
  shape: HandShape,
  frame: ArtFrame,
  width: number,
  height: number,
): HandCover | null {
  const box = reachOf(shape, frame, width, height);
  if (!box) return null;
  const plane = shape.kind === 'lasso' ? lassoed(shape.ring, frame, box) : brushed(shape, frame, box);
  return { x: box.left, y: box.top, plane };
}

type Box = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
};

function lassoed(ring: readonly (readonly [number, number])[], frame: ArtFrame, box: Box): Plane {
  const fine = blankMask(box.width * FINER, box.height * FINER);
  const points = ring.map(
    ([x, y]) =>
      [
        (x * frame.scaleX - frame.offsetX - box.left) * FINER,
        (y * frame.scaleY - frame.offsetY - box.top) * FINER,
      ] as const,
  );
  return downsample(fillRings(fine, [points]), FINER);
}

/** Round in the art's own pixels, whatever the art is stretched to; its edge is one window point soft. */
function brushed(shape: Extract<HandShape, { kind: 'brush' }>, frame: ArtFrame, box: Box): Plane {
  const plane = blankPlane(box.width, box.height);
  const soft = Math.min(frame.scaleX, frame.scaleY);
  const reach = shape.radius + 1 / soft;
  const { path } = shape;
  for (let k = 0; k < path.length; k++) {
    const [ax, ay] = path[k]!;
    const [bx, by] = path[k + 1] ?? path[k]!;
    if (k > 0 && k === path.length - 1) break;
    const [ux, uy] = [bx - ax, by - ay];
    const long = ux * ux + uy * uy;
    const x0 = Math.max(0, Math.floor((Math.min(ax, bx) - reach) * frame.scaleX - frame.offsetX - box.left));
    const x1 = Math.min(
      box.width,
      Math.ceil((Math.max(ax, bx) + reach) * frame.scaleX - frame.offsetX - box.left),
    );
    const y0 = Math.max(0, Math.floor((Math.min(ay, by) - reach) * frame.scaleY - frame.offsetY - box.top));
    const y1 = Math.min(
      box.height,
      Math.ceil((Math.max(ay, by) + reach) * frame.scaleY - frame.offsetY - box.top),
    );
    for (let y = y0; y < y1; y++) {
      const py = (y + box.top + 0.5 + frame.offsetY) / frame.scaleY - ay;
      for (let x = x0; x < x1; x++) {
        const px = (x + box.left + 0.5 + frame.offsetX) / frame.scaleX - ax;
        const t = long > 0 ? Math.max(0, Math.min(1, (px * ux + py * uy) / long)) : 0;
        const away = Math.hypot(px - t * ux, py - t * uy);
        const share = Math.max(0, Math.min(1, (shape.radius - away) * soft + 0.5));
        const at = y * box.width + x;
        if (share * 255 > plane.data[at]!) plane.data[at] = Math.round(share * 255);
      }
    }
  }
  return plane;
}
