export { type Deck, DeckSchema, type Face, FACES, type Kick, type Outline, type OutlineEnd, OutlineSchema } from './deck.ts';
