import type { Deck } from '../deck.ts';

/** A deck to start from, by the name the command line knows it by. */
export interface Template {
  readonly name: string;
  readonly title: string;
  readonly deck: Deck;
}
