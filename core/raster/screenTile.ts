import { type Deg, toRad } from '../units/index.ts';
import type { Mask } from './mask.ts';
import type { Plane } from './plane.ts';
import { thresholdMask } from './thresholdMask.ts';
import type { ThresholdTile } from './thresholdTile.ts';

/** How the dots of a screen grow: round from all sides, elliptical (joining along the angle first), or into lines. */
export type DotShape = 'round' | 'elliptical' | 'line';

/** A screened tone. `angle` counts anticlockwise from the horizontal, as seen, to the rows of dots. */
export interface Screen {
  /** Lines (rows of dots) an inch. */
  readonly lpi: number;
  readonly angle: Deg;
  readonly dot: DotShape;
  /** Of the mask. */
  readonly dpi: number;
}

/** A tile of thresholds with the ruling and angle that whole points made of those asked for. */
export interface ScreenTile extends ThresholdTile {
  readonly lpi: number;
  readonly angle: Deg;
}

/** Errors of ruling (share) and angle (degrees) that no print shows; and the most points a tile may take. */
const LPI_ERROR = 0.002;
const ANGLE_ERROR = 0.05;
const MOST_POINTS = 1 << 16;

/** 1 / ρ and 1 / ρ² of the plastic ratio ρ: steps along x and y that fill the unit interval evenly. */
const PLASTIC = [0.7548776662466927, 0.5698402909980532] as const;

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Height of the dot's profile at phase (u, v) of its cell; ink grows from the highest places down. */
function profile(dot: DotShape, u: number, v: number): number {
  const across = Math.cos(2 * Math.PI * v);
  if (dot === 'line') return across;
  // A flatter slope along the angle makes ellipses, which join there at about a third and across at two thirds.
  return across + (dot === 'round' ? 1 : 0.7) * Math.cos(2 * Math.PI * u);
}

/**
 * Thresholds for a screen of clustered dots. A square of n × n cells (a supercell) is set on whole points, n chosen so that
 * ruling and angle come out within 0.2 % and 0.05°, or as near as the tile's size allows. Its area is A² + B² points; because its
 * corners repeat as bricks in a wall, that many thresholds serve the whole plane (T. M. Holladay, "An optimum algorithm for
 * halftone generation for displays and hard copies", 1980). Thresholds go by rank, so that a coverage of g / 255 inks that
 * share of the points, to within one level, and of each cell's, to within a point.
 *
 * Throws unless lpi and dpi are above 0 and a cell has at least 2 points across.
 */
export function screenTile({ lpi, angle, dot, dpi }: Screen): ScreenTile {
  const cell = dpi / lpi;
  if (!(lpi > 0) || !(dpi > 0) || !(cell >= 2) || cell > 256 || !Number.isFinite(angle))
    throw new RangeError(
      `A screen of ${lpi} lines at ${dpi} dpi has cells of ${cell} points; 2 to 256 can be made.`,
    );
  const turn = toRad(angle);
  let found = { n: 1, a: Math.max(2, Math.round(cell)), b: 0, error: Infinity };
  for (let n = 1; n <= 64; n++) {
    const a = Math.round(n * cell * Math.cos(turn));
    const b = Math.round(n * cell * Math.sin(turn));
    if (a * a + b * b > MOST_POINTS && found.error < Infinity) break;
    const ruling = Math.abs(Math.hypot(a, b) / (n * cell) - 1) / LPI_ERROR;
    let off = Math.atan2(b, a) - turn;
    off -= 2 * Math.PI * Math.round(off / (2 * Math.PI));
    const error = Math.max(ruling, (Math.abs(off) * 180) / Math.PI / ANGLE_ERROR);
    if (error < found.error) found = { n, a, b, error };
    if (error <= 1) break;
  }
  const { n, a, b } = found;
  return {
    ...brick(n, a, b, dot),
    lpi: (n * dpi) / Math.hypot(a, b),
    angle: (Math.atan2(b, a) * 180) / Math.PI,
  };
}

/** The tile of n × n cells whose sides are the vectors (a, −b) and (b, a) of the raster, y down. */
function brick(n: number, a: number, b: number, dot: DotShape): ThresholdTile {
  const points = a * a + b * b;
  const height = gcd(Math.abs(a), Math.abs(b));
  const width = points / height;
  // The lattice's vector that is `height` rows high: p (a, −b) + q (b, a) with −p b + q a = height.
  const [p, q] = bezout(-b, a);
  const sideways = p * a + q * b;
  const shift = ((-sideways % width) + width) % width;
  // At multiples of 45° points fall alike along whole rows.
  const inRows = 2 * height * height >= points;
  const heights = new Float64Array(points);
  const cells = new Int32Array(points);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      // Along whole rows of points dots and lines would grow by rows and stand now nearer, now farther apart: each point's place is
      // taken somewhere within it, so that an edge between two rows is made of points of both.
      const by = scatter(x, y);
      const [px, py] = inRows ? [x + by, y + ((by + y * 0.5) % 1)] : [x + 0.5, y + 0.5];
      const u = (n * (px * a - py * b)) / points;
      const v = (n * (px * b + py * a)) / points;
      heights[i] = profile(dot, u, v) + by * 1e-6;
      // Dots stand at whole (u, v); the border goes to one side whatever rounding does.
      cells[i] = (Math.floor(v + 0.5 + 1e-9) % n) * n + (((Math.floor(u + 0.5 + 1e-9) % n) + n) % n);
    }
  const order = growing(heights, cells, n);
  const data = new Uint8Array(points);
  order.forEach((i, rank) => {
    data[i] = 1 + Math.floor((rank * 255) / points);
  });
  return { width, height, shift, data };
}

/**
 * Places of the points in the order in which they are inked. Every cell always holds the same share of its own points, to within one,
 * and their next points come in a scattered order of the cells: a tint is even from cell to cell at any angle, however unlike the cells
 * fall on the points.
 */
function growing(heights: Float64Array, cells: Int32Array, n: number): Uint32Array {
  const order = Uint32Array.from(heights, (_, i) => i);
  order.sort((i, j) => cells[i]! - cells[j]! || heights[j]! - heights[i]! || i - j);
  const counts = new Uint32Array(n * n);
  for (const cell of cells) counts[cell]!++;
  const when = new Float64Array(heights.length);
  let [first, last] = [0, -1];
  order.forEach((i, k) => {
    const cell = cells[i]!;
    if (cell !== last) [first, last] = [k, cell];
    when[i] = (k - first + scatter(cell % n, Math.floor(cell / n))) / counts[cell]!;
  });
  return order.sort((i, j) => when[i]! - when[j]! || i - j);
}

/** An even scatter over the plane, 0 to 1 (the plastic ratio's sequence). */
const scatter = (x: number, y: number): number => (x * PLASTIC[0] + y * PLASTIC[1]) % 1;

/** Whole p and q with p a + q b = gcd(a, b) > 0 (extended Euclid). */
function bezout(a: number, b: number): [number, number] {
  let [r0, r1, p0, p1, q0, q1] = [a, b, 1, 0, 0, 1];
  while (r1 !== 0) {
    const times = Math.trunc(r0 / r1);
    [r0, r1] = [r1, r0 - times * r1];
    [p0, p1] = [p1, p0 - times * p1];
    [q0, q1] = [q1, q0 - times * q1];
  }
  return r0 < 0 ? [-p0, -q0] : [p0, q0];
}

/**
 * Tones that one dot can take: as many of its cell's points inked as there are, or none: (dpi / lpi)² + 1. A tint over many dots has
 * more, for `screenTile` sets cells of different counts side by side.
 */
export const tonesOfDot = (dpi: number, lpi: number): number => (dpi / lpi) ** 2 + 1;

/** A plane of ink coverage (0 none, 255 full) as dots of a screen: one bit a point, at the screen's dpi. */
export const halftoneMask = (plane: Plane, screen: Screen): Mask => thresholdMask(plane, screenTile(screen));
