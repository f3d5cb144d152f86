export type Place = readonly [number, number];

/** An SVG path through points. */
export const pathOf = (points: readonly Place[]): string =>
  points.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(2)} ${y.toFixed(2)}`).join('');

/** A dimension line between two places of a drawing with arrowheads of `size` units, and its text beside the middle. */
export function Dimension({
  from,
  to,
  text,
  size,
  side = -0.5,
}: {
  from: Place;
  to: Place;
  text: string;
  size: number;
  /** How far beside the line its text stands, in its own heights: negative is above or to the left. */
  side?: number;
}) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [dx / length, dy / length];
  const head = ([x, y]: Place, way: number) =>
    pathOf([
      [x + way * ux * size * 0.6 - uy * size * 0.25, y + way * uy * size * 0.6 + ux * size * 0.25],
      [x, y],
      [x + way * ux * size * 0.6 + uy * size * 0.25, y + way * uy * size * 0.6 - ux * size * 0.25],
    ]);
  const upright = Math.abs(dy) > Math.abs(dx);
  const middle: Place = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return (
    <>
      <path className="measure-line" d={`${pathOf([from, to])}${head(from, 1)}${head(to, -1)}`} />
      <text
        x={middle[0] + (upright ? size * 0.5 : 0)}
        y={middle[1] + (upright ? size * 0.35 : side < 0 ? side * size : side * size + size * 0.7)}
        textAnchor={upright ? 'start' : 'middle'}
        fontSize={size}
      >
        {text}
      </text>
    </>
  );
}
