import type { Face } from './deck/index.ts';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { deckAndHoles, type FacePreview, faceProof } from './facePreview.ts';
import type { Job } from './job/index.ts';
import type { Picture } from './raster/index.ts';
import { done, type Outcome } from './units/index.ts';

export interface PlatesWanted extends MaskTools {
  readonly job: Job;
  readonly face: Face;
  /** Of the proof. */
  readonly dpi: number;
}
export interface ProofWanted extends PlatesWanted {
  readonly veneerId: string;
  readonly colourwayId: string | null;
  /** mm that each pull after the first may wander. */
  readonly misregisterMm?: number;
  readonly seed?: number;
}

/** What every proof of a face is made from, whatever its veneer and colourway; `reduce` points become one. */
export interface ProofPlates {
  readonly preview: FacePreview;
  readonly reduce: number;
}

/** A proof's points come from this resolution or better, so that fine lines keep their weight. */
const FINEST = 300;

/** The face's prints for proofs at `dpi`. */
export async function proofPlates(wanted: PlatesWanted): Promise<Outcome<ProofPlates>> {
  const { job, face, dpi } = wanted;
  const reduce = Math.max(1, Math.min(8, Math.ceil(FINEST / dpi)));
  const made = await faceMasks(job, face, dpi * reduce, 'surface', wanted);
  if (!made.ok) return made;
  const { raster, separations, prints } = made.value;
  const { box, width, height } = raster;
  const shapes = deckAndHoles(raster, job);
  return done({ preview: { box, width, height, dpi: raster.dpi, separations, prints, ...shapes }, reduce });
}

/** The printed face along the wood, the nose to the right, transparent round the deck. */
export async function makeProof(wanted: ProofWanted): Promise<Outcome<Picture>> {
  const plates = await proofPlates(wanted);
  if (!plates.ok) return plates;
  return done(faceProof({ ...wanted, ...plates.value }));
}
