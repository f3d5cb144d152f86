import type { Mm } from '../units/index.ts';

/** What marks and labels are made of: strokes with round ends, and filled polygons. mm, in the space the owner states. */
export type Shape =
  | { readonly kind: 'line'; readonly width: Mm; readonly points: readonly (readonly [number, number])[] }
  | { readonly kind: 'fill'; readonly points: readonly (readonly [number, number])[] };

export const line = (width: Mm, ...points: readonly (readonly [number, number])[]): Shape => ({
  kind: 'line',
  width,
  points,
});

/** A filled axis-parallel rectangle by its lower left corner. */
export const bar = (x: Mm, y: Mm, width: Mm, height: Mm): Shape => ({
  kind: 'fill',
  points: [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ],
});

/** A ring drawn as 72 chords: at 4 mm radius they leave the circle by 4 µm, a tenth of a pixel at 600 dpi. */
export function ringLine(x: Mm, y: Mm, radius: Mm, width: Mm): Shape {
  const points: [number, number][] = [];
  for (let i = 0; i <= 72; i++) {
    const turn = (i * Math.PI) / 36;
    points.push([x + radius * Math.cos(turn), y + radius * Math.sin(turn)]);
  }
  return { kind: 'line', width, points };
}

/** [a, b, c, d, e, f]: X = a·x + c·y + e, Y = b·x + d·y + f. */
export type Affine = readonly [number, number, number, number, number, number];

export const apply = ([a, b, c, d, e, f]: Affine, x: number, y: number): [number, number] => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** First `inner`, then `outer`. */
export function compose(outer: Affine, inner: Affine): Affine {
  const [a, b] = [outer[0] * inner[0] + outer[2] * inner[1], outer[1] * inner[0] + outer[3] * inner[1]];
  const [c, d] = [outer[0] * inner[2] + outer[2] * inner[3], outer[1] * inner[2] + outer[3] * inner[3]];
  const [e, f] = apply(outer, inner[4], inner[5]);
  return [a, b, c, d, e, f];
}

/** Shapes moved to another space; line widths stay, as every map here keeps lengths to within a printer's error. */
export const place = (shapes: readonly Shape[], by: Affine): Shape[] => {
  // Thousands of short strokes come through here on code that is still cold: by index, which costs least then.
  const [a, b, c, d, e, f] = by;
  const move = (p: readonly [number, number]): [number, number] => [
    a * p[0] + c * p[1] + e,
    b * p[0] + d * p[1] + f,
  ];
  return shapes.map((shape) =>
    shape.kind === 'line'
      ? { kind: 'line', width: shape.width, points: shape.points.map(move) }
      : { kind: 'fill', points: shape.points.map(move) },
  );
};
