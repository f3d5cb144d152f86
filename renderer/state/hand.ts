/** What a hand does on the deck at the Inks station. */
export interface HandTool {
  readonly kind: 'pick' | 'lasso' | 'brush';
  /** The ink a region is given to; null: bare wood. */
  readonly to: string | null;
  /** Only what this ink has changes; null: whatever is there. */
  readonly only: string | null;
  readonly bareStays: boolean;
  /** mm, the brush's width on the wood. */
  readonly width: number;
}

/** What is being drawn. Surface mm. */
export interface HandStroke {
  readonly points: readonly (readonly [number, number])[];
  /** Where the hand, or the cross moved by keys, now is; null: not on the deck. */
  readonly at: { readonly s: number; readonly t: number } | null;
  readonly down: boolean;
}

/** A colour of the art that was clicked, and where. */
export interface PickedColour {
  readonly hex: string;
  readonly s: number;
  readonly t: number;
}

export const NO_STROKE: HandStroke = { points: [], at: null, down: false };
