import { traceTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome, type PlanPoint } from '../units/index.ts';
import { checkDeck } from './checkDeck.ts';
import type { Deck, Face } from './deck.ts';
import { ringArea } from './outline.ts';
import type { Squaring } from './squareOutline.ts';
import { makeSurface } from './surface.ts';

type Pair = readonly [number, number];

export interface TracedOptions {
  /** Which face the picture shows. */
  readonly face: Face;
  /** Where the outline is from, kept in the job: a file's name. */
  readonly source: string;
  /**
   * Where the wood itself was photographed: how high the camera stood over it, mm, and the place in the picture right
   * under it (its middle, for a camera held square). Null: a tracing on paper or a scan, flat as it is.
   */
  readonly camera: { readonly height: Mm; readonly x: number; readonly y: number } | null;
}

/** Rounds of working out how high the rail lies where it was seen; each gains two digits or more. */
const ROUNDS = 12;

/**
 * Where a point of the bent wood is in plan, seen at `p` in the plane of the truck holes by a camera `height` over
 * `foot`: the ends of a deck rise towards the camera (top) or fall from it (bottom), and are seen too far out or in.
 */
function seenFrom(deck: Deck, face: Face, foot: PlanPoint, height: Mm): (p: PlanPoint) => PlanPoint {
  const surface = makeSurface(deck, face);
  return (p) => {
    let at = p;
    for (let round = 0; round < ROUNDS; round++) {
      const rise = surface.toSpace(surface.toSurface(at)).z * (face === 'top' ? 1 : -1);
      const share = 1 - rise / height;
      at = { x: foot.x + (p.x - foot.x) * share, y: foot.y + (p.y - foot.y) * share };
    }
    return at;
  };
}

/**
 * The deck with an outline traced in a picture (px) and squared from its truck holes, which keep their place in it. Its
 * width, nose, tail and wheelbase follow. Refused where the result is no deck.
 */
export function tracedDeck(
  deck: Deck,
  ring: readonly Pair[],
  squaring: Squaring,
  options: TracedOptions,
): Outcome<Deck> {
  const { face, camera } = options;
  const held = { ...deck, wheelbase: squaring.wheelbase };
  if (camera && !(camera.height > 300)) return traceTrouble.cameraTooLow();
  const lower = camera
    ? seenFrom(held, face, squaring.toPlan(camera.x, camera.y), camera.height)
    : (p: PlanPoint) => p;
  const points: [number, number][] = ring.map(([x, y]) => {
    const p = lower(squaring.toPlan(x, y));
    return [p.x, face === 'top' ? -p.y : p.y];
  });
  if (!points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y))) return traceTrouble.horizon();
  if (ringArea(points) < 0) points.reverse();
  const outline = { kind: 'path' as const, points, source: options.source.slice(0, 400) };
  const checked = checkDeck({ ...held, outline });
  if (!checked.ok) return checked;
  const { width, noseLength, tailLength } = checked.value;
  if (!(width >= 60 && width <= 500 && noseLength <= 600 && tailLength <= 600))
    return traceTrouble.unlikelyDeck(width.toFixed(0), noseLength.toFixed(0));
  return done(checked.value);
}
