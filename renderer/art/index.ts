export { ArtStation } from './ArtStation.tsx';
export { effectiveDpi, resolutionWord } from './resolution.ts';
