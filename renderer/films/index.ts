export { FilmsStation } from './FilmsStation.tsx';
