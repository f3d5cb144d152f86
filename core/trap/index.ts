export { type BaseRequest, baseMask, chokeRows, withoutCrumbs } from './base.ts';
export { chokeMask } from './choke.ts';
export { holdOpen } from './holdOpen.ts';
export {
  type LearnedTolerance,
  learnTolerance,
  type RegisterReading,
  screenOffset,
} from './learnTolerance.ts';
export { HIDES, type PairRule, type TrapInk, type TrapSettings, trapPairs } from './pairs.ts';
export type { Spread } from './percentile.ts';
export { drawPullError, type PullError } from './pullError.ts';
export { randomStream } from './randomStream.ts';
export {
  curveOf,
  type GapLimit,
  inOrder,
  type RegisterCurve,
  type RegisterCurveRequest,
  type RegisterPoint,
  registerCurve,
} from './registerCurve.ts';
export type { TrialShown } from './registerRun.ts';
export {
  gatherTrials,
  type RegisterOptions,
  type RegisterResult,
  runTrials,
  showRegister,
  simulateRegister,
} from './simulateRegister.ts';
export { trapInk } from './spread.ts';
