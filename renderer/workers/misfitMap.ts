import { type Deck, type Face, misfit, misfitPicture } from '../../core/deck/index.ts';
import type { Box } from '../../core/units/index.ts';

export interface MisfitMap {
  readonly picture: ImageData;
  readonly box: Box;
  /** Wood length over film length, furthest from 1. */
  readonly worstStretch: number;
  /** mm, signed: wood longer than film is positive. */
  readonly worstMm: number;
}

/** Points to a mm: contour lines stay fine when the deck fills the window. */
const FINE = 2.5;

/** The misfit of a flat film on the face, as the board draws it. */
export function misfitMap(
  deck: Deck,
  face: Face,
  settings: { readonly development: 'balanced' | 'centreline'; readonly railMargin: number },
): MisfitMap {
  const grid = misfit(deck, face, settings.development, undefined, settings.railMargin);
  const { picture, box } = misfitPicture(grid, FINE);
  return {
    picture: new ImageData(picture.data, picture.width),
    box,
    worstStretch: grid.worstStretch.value,
    worstMm: grid.worstMisfit.mm as number,
  };
}
