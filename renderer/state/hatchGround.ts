import { labOfHex } from '../../core/colour/index.ts';

/** CIE L* above which an ink is hatched on a dark ground. */
const PALE = 75;

/** What an ink's hatch stands on, so that a pale ink shows too. */
export const hatchGround = (hex: string): string => (labOfHex(hex).l > PALE ? '#3b332c' : '#fffaf0');
