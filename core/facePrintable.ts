import type { Face } from './deck/index.ts';
import { reachOf } from './faceGrowth.ts';
import { faceRaster, printableMask, type RasterSpace } from './faceRaster.ts';
import type { Job } from './job/index.ts';
import type { Mask } from './raster/index.ts';

/** Which grid it is: what `faceRaster` makes it from. */
export interface PrintableInput {
  readonly job: Pick<Job, 'deck' | 'faces' | 'press'>;
  readonly face: Face;
  readonly dpi: number;
  readonly space: RasterSpace;
}

/** Where ink may go on a face, in shared memory. */
export const facePrintable = ({ job, face, dpi, space }: PrintableInput): Mask =>
  printableMask(faceRaster(job.deck, face, dpi, space), job, reachOf(job, face), true);
