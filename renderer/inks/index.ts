export { InksStation } from './InksStation.tsx';
