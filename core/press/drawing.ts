import type { Box, Mm } from '../units/index.ts';

/** What a line of a drawing is for; a cutter takes `cut` and `drill`, the rest is marked or only read. */
export type Layer = 'cut' | 'drill' | 'mark' | 'frame' | 'text';
export const LAYERS: readonly Layer[] = ['cut', 'drill', 'mark', 'frame', 'text'];

export type DrawnItem =
  | {
      readonly kind: 'path';
      readonly layer: Layer;
      readonly points: readonly (readonly [number, number])[];
      readonly closed: boolean;
      readonly dashed?: boolean;
    }
  | { readonly kind: 'circle'; readonly layer: Layer; readonly x: Mm; readonly y: Mm; readonly radius: Mm }
  | {
      readonly kind: 'text';
      readonly layer: Layer;
      readonly x: Mm;
      readonly y: Mm;
      /** mm, height of a capital. */
      readonly height: Mm;
      readonly text: string;
      /** Centred on x; else it begins there. */
      readonly middle?: boolean;
    };

/** A workshop drawing at 1:1. mm, +x to the right, +y up. */
export interface Drawing {
  /** For file names: lower-case words with hyphens. */
  readonly name: string;
  readonly title: string;
  readonly box: Box;
  readonly items: readonly DrawnItem[];
}

type Pair = readonly [number, number];

export const path = (layer: Layer, points: readonly Pair[], closed = false, dashed = false): DrawnItem => ({
  kind: 'path',
  layer,
  points,
  closed,
  ...(dashed ? { dashed } : {}),
});
export const circle = (layer: Layer, x: Mm, y: Mm, radius: Mm): DrawnItem => ({
  kind: 'circle',
  layer,
  x,
  y,
  radius,
});
export const text = (x: Mm, y: Mm, height: Mm, words: string, middle = false): DrawnItem => ({
  kind: 'text',
  layer: 'text',
  x,
  y,
  height,
  text: words,
  ...(middle ? { middle } : {}),
});

/** The drawing with the box of all its items and `margin` mm round them; text by a letter's usual breadth. */
export function drawing(name: string, title: string, items: readonly DrawnItem[], margin: Mm = 5): Drawing {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  const take = (x: number, y: number) => {
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  };
  for (const item of items) {
    if (item.kind === 'path') for (const [x, y] of item.points) take(x, y);
    else if (item.kind === 'circle') {
      take(item.x - item.radius, item.y - item.radius);
      take(item.x + item.radius, item.y + item.radius);
    } else {
      const wide = item.text.length * item.height * 0.8;
      take(item.x - (item.middle ? wide / 2 : 0), item.y);
      take(item.x + (item.middle ? wide / 2 : wide), item.y + item.height);
    }
  }
  if (!(right >= left)) [left, right, low, high] = [0, 0, 0, 0];
  return {
    name,
    title,
    items,
    box: {
      x: left - margin,
      y: low - margin,
      width: right - left + 2 * margin,
      height: high - low + 2 * margin,
    },
  };
}
