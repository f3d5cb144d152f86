export type { Calculation } from './calculation.ts';
export { type GrowthInput, type MeshGrowth, meshGrowth } from './growth.ts';
export { type EndReach, type Reach, type ReachInput, reach } from './reach.ts';
export { type Section, sectionOf } from './section.ts';
export { type CurvedSqueegee, curvedSqueegee, type SqueegeeInput } from './squeegee.ts';
