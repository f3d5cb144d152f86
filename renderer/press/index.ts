export { PressStation } from './PressStation.tsx';
