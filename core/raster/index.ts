export { blankMask, type Mask, strideFor } from './mask.ts';
export type { Picture } from './picture.ts';
export type { Plane } from './plane.ts';
