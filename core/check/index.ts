export type { RunAdvice } from './advice.ts';
export { checkJob } from './checkJob.ts';
export type { CheckInput, FaceFacts, PlacedArt, SheetFact } from './input.ts';
export type { Problem, Severity } from './problem.ts';
export { runAdvice } from './runAdvice.ts';
