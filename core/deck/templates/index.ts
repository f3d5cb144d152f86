import type { Deck } from '../deck.ts';
import { cruisers } from './cruisers.ts';
import { popsicles } from './popsicles.ts';
import type { Template } from './template.ts';

export type { Template } from './template.ts';

/** Generic decks, named by shape and width in inches. They are starting points: measure the wood at hand. */
export const TEMPLATES: readonly Template[] = [...popsicles, ...cruisers];

export const deckTemplate = (name: string): Deck | undefined => TEMPLATES.find((t) => t.name === name)?.deck;
