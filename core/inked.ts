import type { FaceRaster } from './faceRaster.ts';
import type { DroppedSpeck } from './finishFace.ts';
import type { InkMemory } from './inkMemory.ts';
import type { Job } from './job/index.ts';
import type { Mask, Picture } from './raster/index.ts';

/** A face, or a window of it, to be separated from decoded pictures. */
export interface InkFaceInput {
  readonly job: Job;
  /** By hash, at any size. Pieces whose picture is not there are left out. */
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly raster: FaceRaster;
  /** Prints with traps and base; else they are the separations. */
  readonly traps: boolean;
  /** What is left of the face's last making, at this resolution. With it art is separated whole, not tile by tile. */
  readonly memory?: InkMemory | undefined;
  /** With a memory: whether art separated for the same inks in other colours will do. */
  readonly loose?: boolean | undefined;
  /** Prints as the films have them rather than as they come out on the wood; left out: as they come out. */
  readonly film?: boolean;
}

/** Inks in pull order. */
export interface Inked {
  readonly separations: readonly Mask[];
  readonly prints: readonly Mask[];
  /** Specks and holes that were dropped; dots are none. */
  readonly dropped?: readonly DroppedSpeck[];
}
