export { badInput, cancelled, type Failure, failureAt, fileTrouble } from '../sentences/index.ts';
export { type Deg, type Rad, toRad } from './angle.ts';
export { MM_PER_INCH, type Mm, type Px, pxPerMm, pxToMm, toPx } from './length.ts';
export { done, type Outcome } from './outcome.ts';
export { parseLength } from './parseLength.ts';
export { parseNumberSum, parseSum } from './parseSum.ts';
export type { Box, FilmPoint, PlanPoint, Ring, SpacePoint, SurfacePoint } from './point.ts';
export type { Abort, Progress } from './progress.ts';
export { issueText, type SchemaIssue } from './schemaIssue.ts';
