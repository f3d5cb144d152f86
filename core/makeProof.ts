import type { Face } from './deck/index.ts';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { deckAndHoles, faceProof } from './facePreview.ts';
import type { Job } from './job/index.ts';
import type { Picture } from './raster/index.ts';
import { done, type Outcome } from './units/index.ts';

export interface ProofWanted extends MaskTools {
  readonly job: Job;
  readonly face: Face;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly dpi: number;
  /** mm that each pull after the first may wander. */
  readonly misregisterMm?: number;
  readonly seed?: number;
}

/** A proof's points come from this resolution or better, so that fine lines keep their weight. */
const FINEST = 300;

/** The printed face along the wood, the nose to the right, transparent round the deck. */
export async function makeProof(wanted: ProofWanted): Promise<Outcome<Picture>> {
  const { job, face, dpi } = wanted;
  const reduce = Math.max(1, Math.min(8, Math.ceil(FINEST / dpi)));
  const made = await faceMasks(job, face, dpi * reduce, 'surface', wanted);
  if (!made.ok) return made;
  const { raster, separations, prints } = made.value;
  const { box, width, height } = raster;
  const preview = { box, width, height, dpi: raster.dpi, separations, prints, ...deckAndHoles(raster, job) };
  return done(faceProof({ ...wanted, preview, reduce }));
}
