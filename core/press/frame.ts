import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface FrameInput {
  /** mm of the film: along the deck, and across. */
  readonly filmLength: Mm;
  readonly filmWidth: Mm;
  /** mm of squeegee blade across the deck. */
  readonly blade: Mm;
  /** mm between blade or film and the frame's side. */
  readonly sideMargin: Mm;
  /** mm at each end for ink and squeegee. */
  readonly inkWell: Mm;
}

/** The smallest inner frame for a film and its squeegee. */
export function innerFrame(
  input: FrameInput,
): Outcome<Calculation<{ readonly width: Mm; readonly length: Mm; readonly offContact: Mm }>> {
  const { filmLength, filmWidth, blade, sideMargin, inkWell } = input;
  const bad = outOfBounds({
    'film length': [filmLength, { least: 1, most: 5000, unit: 'mm' }],
    'film width': [filmWidth, { least: 1, most: 3000, unit: 'mm' }],
    'blade length': [blade, { least: 1, most: 2000, unit: 'mm' }],
    'side margin': [sideMargin, { least: 0, most: 1000, unit: 'mm' }],
    'ink well': [inkWell, { least: 0, most: 1000, unit: 'mm' }],
  });
  if (bad) return bad;
  const width = Math.max(filmWidth, blade) + 2 * sideMargin;
  return done({
    result: { width, length: filmLength + 2 * inkWell, offContact: Math.max(2, width / 130) },
    formula:
      'width = max(film, blade) + 2 × side margin; length = film + 2 × ink well; off-contact ≈ width / 130, 2 mm or more',
    assumptions: [
      'The squeegee is drawn along the deck, its blade across.',
      usualWords('Usual side margin', USUAL.sideMargin),
      usualWords('Usual ink well', USUAL.inkWell),
      'Off-contact of 3 mm on a 400 mm frame is common practice, no source: use the least that lifts the mesh clean off behind the blade.',
    ],
  });
}
