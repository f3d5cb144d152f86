import {
  type Deck,
  type Face,
  HOLE_CHOICES,
  type HoleChoice,
  type NoseTo,
  orderHoles,
  type Pixels,
  type Squaring,
  squareOutline,
  type Trace,
  tracedDeck,
} from '../../../core/deck/index.ts';
import { traceTrouble } from '../../../core/sentences/index.ts';
import { done, type Outcome } from '../../../core/units/index.ts';

export type Place = readonly [number, number];

/** What the user says about the picture. */
export interface TraceSettings {
  readonly which: HoleChoice;
  readonly noseTo: NoseTo;
  readonly face: Face;
  /** mm as measured on the wood; null: solved from the holes. */
  readonly wheelbase: number | null;
  /** 0 to 255; null: found. */
  readonly threshold: number | null;
  /** mm the camera stood over the wood itself; null: a tracing on paper, or a scan. */
  readonly cameraHeight: number | null;
}

/** Holes still to be clicked. */
export const holesWanted = (which: HoleChoice): number => HOLE_CHOICES[which].length;

export interface Squared {
  readonly squaring: Squaring;
  readonly deck: Deck;
}

/** The deck that the picture shows, once its outline is found and its holes are clicked. */
export function squared(
  deck: Deck,
  picture: Pixels,
  trace: Trace,
  holes: readonly Place[],
  settings: TraceSettings,
  source: string,
): Outcome<Squared> {
  const missing = holesWanted(settings.which) - holes.length;
  if (missing > 0) return traceTrouble.holesToClick(missing);
  const ordered = orderHoles(holes, settings.noseTo);
  if (!ordered.ok) return ordered;
  const squaring = squareOutline(deck, ordered.value, settings.wheelbase, settings.which);
  if (!squaring.ok) return squaring;
  const camera =
    settings.cameraHeight === null
      ? null
      : { height: settings.cameraHeight, x: picture.width / 2, y: picture.height / 2 };
  const made = tracedDeck(deck, trace.ring, squaring.value, { face: settings.face, source, camera });
  return made.ok ? done({ squaring: squaring.value, deck: { ...made.value, name: source } }) : made;
}
