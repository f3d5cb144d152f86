import type { Picture } from '../raster/index.ts';
import { artColoursOf } from './artColours.ts';
import { artToTry, type InkFit, inkFit } from './inkFit.ts';
import { withOneMoreInk } from './oneMoreInk.ts';
import { type InkSuggestion, type SuggestOptions, suggestFrom } from './suggestInks.ts';

/** Inks for the art, and how near they come to it. */
export interface TriedInks {
  readonly inks: readonly InkSuggestion[];
  readonly fit: InkFit;
  /** As many as the art itself asks for. */
  readonly advised: boolean;
  /** More than the art has colours: the last is a shade of its soft edges, there to show what it would bring. */
  readonly beyond: boolean;
}

export interface AroundOptions extends SuggestOptions {
  /** See `InkFitOptions`. */
  readonly bare: string;
  readonly toned: boolean;
}

/** Colours of the art asked for to come by one more ink when the shelf joins some. */
const FURTHER = 4;

/**
 * Inks for the art, `count` of them or as many as it asks for (null), with one fewer and one more beside them, fewest first. Art with
 * fewer colours than `count` is shown with all of them in the middle. One more than the art has is `beyond` it; it is missing
 * only where no further shade (or ink of the shelf) comes nearer, one fewer only where there is one ink.
 */
export function suggestAround(picture: Picture, count: number | null, options: AroundOptions): TriedInks[] {
  const colours = artColoursOf(picture);
  const advised = suggestFrom(colours, null, options);
  const middle = count === null ? advised : suggestFrom(colours, count, options);
  if (middle.length === 0) return [];
  const art = artToTry(picture, options.toned);
  const more = () => {
    for (let n = middle.length + 1; n <= middle.length + FURTHER; n++) {
      const inks = suggestFrom(colours, n, options);
      if (inks.length === middle.length + 1) return { inks, beyond: false };
    }
    const inks = withOneMoreInk(colours, middle, options);
    return inks && { inks, beyond: true };
  };
  const fewer = middle.length > 1 ? suggestFrom(colours, middle.length - 1, options) : [];
  const sets = [{ inks: fewer, beyond: false }, { inks: middle, beyond: false }, more()];
  const tried: TriedInks[] = [];
  for (const set of sets) {
    if (!set || set.inks.length === 0) continue;
    const { inks, beyond } = set;
    tried.push({ inks, beyond, fit: inkFit(art, inks, options), advised: inks.length === advised.length });
  }
  return tried;
}
