import { MM_PER_INCH } from '../../units/index.ts';
import type { Deck } from '../deck.ts';

export const inch = (n: number): number => n * MM_PER_INCH;

/**
 * Holes 2.125 × 1.625 in (common practice, no source: the pattern of nearly all trucks made since the 1990s; older ones
 * are 2.5 in along). Drill 3/16 in: published in a deck press maker's notes on drop-through truck holes.
 */
export const MODERN_HOLES: Deck['holes'] = { along: 53.975, across: 41.275, diameter: 4.7625 };
export const OLDER_HOLES: Deck['holes'] = { along: 63.5, across: 41.275, diameter: 4.7625 };

/** Seven plies of 1/16 in maple before pressing, 11.1 mm (published, general articles on skateboard construction). */
export const SEVEN_PLIES = 11.1;
