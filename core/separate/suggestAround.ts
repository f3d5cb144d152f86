import type { Picture } from '../raster/index.ts';
import { artColoursOf } from './artColours.ts';
import { type InkFit, inkFit, smallArt } from './inkFit.ts';
import { type InkSuggestion, type SuggestOptions, suggestFrom } from './suggestInks.ts';

/** Inks for the art, and how near they come to it. */
export interface TriedInks {
  readonly inks: readonly InkSuggestion[];
  readonly fit: InkFit;
  /** As many as the art itself asks for. */
  readonly advised: boolean;
}

export interface AroundOptions extends SuggestOptions {
  /** See `InkFitOptions`. */
  readonly bare: string;
  readonly toned: boolean;
}

/**
 * Inks for the art, `count` of them or as many as it asks for (null), with one fewer and one more beside them, fewest first. One
 * more is left out where flat art has no further colour.
 */
export function suggestAround(picture: Picture, count: number | null, options: AroundOptions): TriedInks[] {
  const colours = artColoursOf(picture);
  const advised = suggestFrom(colours, null, options);
  if (advised.length === 0) return [];
  const middle = count ?? advised.length;
  const art = smallArt(picture);
  const tried: TriedInks[] = [];
  for (const n of [middle - 1, middle, middle + 1]) {
    if (n < 1) continue;
    const inks = suggestFrom(colours, n, options);
    if (inks.length === 0 || tried.some((t) => t.inks.length === inks.length)) continue;
    tried.push({ inks, fit: inkFit(art, inks, options), advised: inks.length === advised.length });
  }
  return tried;
}
