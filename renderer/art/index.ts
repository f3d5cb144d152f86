export { ArtStation } from './ArtStation.tsx';
export { copyPieces, duplicatePieces, pastePieces } from './pieceCopies.ts';
export { effectiveDpi, resolutionWord } from './resolution.ts';
