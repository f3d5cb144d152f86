export { TrapsStation } from './TrapsStation.tsx';
