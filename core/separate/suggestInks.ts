import type { Picture } from '../raster/index.ts';

export interface InkSuggestion {
  readonly hex: string;
  /** Share of the inked points, 0 to 1. */
  readonly share: number;
  readonly name: string;
}

export interface SuggestOptions {
  /** Inks the printer owns: what is found is snapped to the nearest of them. */
  readonly shelf?: readonly { readonly name: string; readonly hex: string }[] | undefined;
  /** The art's paper, which needs no ink. */
  readonly ground?: string | null | undefined;
}

/** Inks for a piece of art, light to dark. */
export function suggestInks(
  _picture: Picture,
  _count: number | null,
  _options: SuggestOptions = {},
): InkSuggestion[] {
  return [];
}
