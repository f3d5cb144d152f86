export { DeckStation } from './DeckStation.tsx';
export { DeckDrawing } from './Templates.tsx';
