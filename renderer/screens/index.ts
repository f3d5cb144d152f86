export { ScreensStation } from './ScreensStation.tsx';
