export { PressStation } from './PressStation.tsx';
export { StrayCard } from './StrayCard.tsx';
