import type { ArtSource } from './artWindows.ts';
import type { FaceRaster } from './faceRaster.ts';
import type { DroppedSpeck } from './finishFace.ts';
import type { Art, Job } from './job/index.ts';
import type { Workers } from './ports/index.ts';
import type { Mask } from './raster/index.ts';
import type { Unplanned } from './separate/index.ts';
import type { Abort, Progress } from './units/index.ts';

/** What the work needs from outside. */
export interface MaskTools extends ArtSource {
  readonly workers: Workers;
  readonly progress?: Progress | undefined;
  readonly abort?: Abort | undefined;
  /** Is told of an ink's print once it is done, where others still take time; not of every ink by every method. */
  readonly printed?: ((print: Mask) => void) | undefined;
}

/** Where one piece has anything to print, not cut to the printable area, and its colours near no ink. */
export interface PieceMask {
  readonly id: string;
  readonly inked: Mask;
  readonly unplanned: readonly Unplanned[];
}

/** A face at full resolution, inks in pull order, masks in shared memory. In film space prints are as the films have them. */
export interface FaceMasks {
  readonly raster: FaceRaster;
  readonly separations: readonly Mask[];
  readonly prints: readonly Mask[];
  readonly printable: Mask;
  readonly dropped: readonly DroppedSpeck[];
  readonly unplanned: readonly Unplanned[];
  /** By piece, only when asked for. */
  readonly pieces: readonly PieceMask[];
  readonly growth: { readonly along: number; readonly across: number };
}

/** What is the same for every method. */
export interface MaskWork {
  readonly job: Job;
  readonly raster: FaceRaster;
  readonly pieces: readonly Art[];
  /** Where ink may go. */
  readonly printable: Promise<Mask>;
  readonly film: boolean;
  readonly piecesToo: boolean;
  readonly tools: MaskTools;
  readonly say: Progress;
}

/** What a method makes of it. */
export type MadeMasks = Omit<FaceMasks, 'raster' | 'printable' | 'growth'>;
