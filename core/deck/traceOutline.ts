import { ramerDouglasPeuckerD } from 'clipper2-ts';
import { traceTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { largestIsoRing } from './isoRing.ts';
import { ringArea } from './outline.ts';
import { type Pixels, type SplitLight, splitLight } from './pictureLight.ts';

type Pair = readonly [number, number];

export interface TraceOptions {
  /** 0 to 255 of the picture's lightness, where deck and ground part; null or absent: found (Otsu). */
  readonly threshold?: number | null;
}

/** A deck's outline as found in a picture. */
export interface Trace {
  /** px of the picture: x to the right, y down, a point's middle at +0.5; last point not repeated. */
  readonly ring: readonly Pair[];
  /** 0 to 255: where deck and ground were parted. */
  readonly threshold: number;
}

/** Points of a picture that is worth tracing, and the most that are looked at. */
const LEAST_SIDE = 40;
const MOST_PIXELS = 60_000_000;
/** Less of a picture than this is no deck laid down to be traced. */
const LEAST_SHARE = 0.02;
/** Encoded values between deck and ground below which what is found is noise. */
const LEAST_CONTRAST = 12;
/** px each way from the outline where its own deck and ground are looked at. */
const LOOK = 4;
/** px that the outline may be simplified by. */
const SIMPLER = 0.1;

/** Each point the mean of itself and its neighbours, 1 2 1; shrinks a bend of radius r px by at most 1/(4r) a pass. */
function smoothRing(ring: readonly Pair[], passes: number): Pair[] {
  let now = ring;
  for (let pass = 0; pass < passes; pass++) {
    const n = now.length;
    now = now.map(([x, y], i) => {
      const a = now[(i + n - 1) % n] as Pair;
      const b = now[(i + 1) % n] as Pair;
      return [(a[0] + 2 * x + b[0]) / 4, (a[1] + 2 * y + b[1]) / 4];
    });
  }
  return [...now];
}

/** Light at a place between points. */
function lightAt({ light, width, height }: SplitLight, x: number, y: number): number {
  const fx = Math.min(width - 1.001, Math.max(0, x - 0.5));
  const fy = Math.min(height - 1.001, Math.max(0, y - 0.5));
  const [c, r] = [Math.floor(fx), Math.floor(fy)];
  const [p, q] = [fx - c, fy - r];
  const at = r * width + c;
  return (
    (1 - q) * ((1 - p) * light[at]! + p * light[at + 1]!) +
    q * ((1 - p) * light[at + width]! + p * light[at + width + 1]!)
  );
}

/**
 * Moves each point along the outline's normal to half-way between the deck's light and the ground's just there: a lamp
 * to one side makes one level for the whole picture wrong by some tenths of a px.
 */
function settle(split: SplitLight, ring: readonly Pair[]): Pair[] {
  const n = ring.length;
  const step = 0.5;
  const count = (2 * LOOK) / step + 1;
  const along = new Float64Array(count);
  return ring.map(([x, y], i) => {
    const a = ring[(i + n - 3) % n] as Pair;
    const b = ring[(i + 3) % n] as Pair;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (!(length > 0)) return [x, y];
    const [nx, ny] = [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
    for (let k = 0; k < count; k++) {
      const off = k * step - LOOK;
      along[k] = lightAt(split, x + nx * off, y + ny * off);
    }
    const middle = (along[0]! + along[1]! + along[count - 2]! + along[count - 1]!) / 4;
    let best = Infinity;
    for (let k = 0; k + 1 < count; k++) {
      const [p, q] = [along[k]! - middle, along[k + 1]! - middle];
      if (p * q > 0 || p === q) continue;
      const off = (k + p / (p - q)) * step - LOOK;
      if (Math.abs(off) < Math.abs(best)) best = off;
    }
    return Math.abs(best) <= LOOK / 2 ? [x + nx * best, y + ny * best] : [x, y];
  });
}

/**
 * The outline of the deck in a scan or a photograph of one laid flat on a ground lighter or darker than it: threshold,
 * largest line around it, settled on its own edge, smoothed and simplified. px; see `squareOutline` for the way to mm.
 */
export function traceOutline(picture: Pixels, options: TraceOptions = {}): Outcome<Trace> {
  const { width, height } = picture;
  if (width < LEAST_SIDE || height < LEAST_SIDE || width * height > MOST_PIXELS)
    return traceTrouble.pictureSize(width, height);
  const split = splitLight(picture, options.threshold ?? null);
  const found = split.contrast >= LEAST_CONTRAST ? largestIsoRing(split) : null;
  if (!found || Math.abs(ringArea(found)) < LEAST_SHARE * width * height) return traceTrouble.noDeck();
  const near = 2;
  if (found.some(([x, y]) => x < near || y < near || x > width - near || y > height - near))
    return traceTrouble.outlineLeavesPicture();
  const smooth = smoothRing(found, 4);
  const settled = (options.threshold ?? null) === null ? smoothRing(settle(split, smooth), 4) : smooth;
  const simple = ramerDouglasPeuckerD(
    settled.map(([x, y]) => ({ x, y })),
    SIMPLER,
  );
  return done({ ring: simple.map(({ x, y }): Pair => [x, y]), threshold: split.threshold });
}
