export { Cautions } from './Cautions.tsx';
export { Drawn } from './Drawn.tsx';
export { ScreensStation } from './ScreensStation.tsx';
export { Worked } from './Worked.tsx';
