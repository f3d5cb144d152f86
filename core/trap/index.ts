export { type BaseRequest, baseMask } from './base.ts';
export { chokeMask } from './choke.ts';
export { holdOpen } from './holdOpen.ts';
export { HIDES, type PairRule, type TrapInk, type TrapSettings, trapPairs } from './pairs.ts';
export { trapInk } from './spread.ts';
