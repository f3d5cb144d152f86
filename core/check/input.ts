import type { Face } from '../deck/index.ts';
import type { Job } from '../job/index.ts';
import type { Mask } from '../raster/index.ts';
import type { Box, Ring } from '../units/index.ts';

/** What is known of one placed piece of art once it is drawn on the face. */
export interface PlacedArt {
  readonly id: string;
  readonly name: string;
  /** Pixels of the art a mm of the wood, the lower of its two directions; null: drawn art, sharp at any size. */
  readonly pxPerMm: number | null;
  /** Its outline on the surface, mm. */
  readonly ring: Ring;
  /** Where it has anything to print, not cut to the printable area, on the face's raster; left out: all of its outline. */
  readonly inked?: Mask | undefined;
  /** Colours of it that are none of the inks, with their share of the piece, 0 to 1. */
  readonly unplanned: readonly { readonly hex: string; readonly share: number }[];
}

/** Whether one ink's film can be cut into sheets. */
export interface SheetFact {
  readonly ink: string;
  readonly fits: boolean;
  /** Why not, one sentence; null where it fits. */
  readonly reason: string | null;
}

/** One face as the check sees it. Masks share one raster over `box` (surface, mm; row 0 is the top, largest t). */
export interface FaceFacts {
  readonly face: Face;
  readonly dpi: number;
  readonly box: Box;
  /** By place in the pull order, before trapping. */
  readonly separations: readonly Mask[];
  /** By place in the pull order: what each ink prints, traps and base included. */
  readonly prints: readonly Mask[];
  /** Where ink may go. */
  readonly printable: Mask;
  /** The pieces that are not hidden, bottom-most first. */
  readonly art: readonly PlacedArt[];
  readonly sheets: readonly SheetFact[];
  /** Specks and holes too small to print (ink id; null: a bare hole), the largest first; left out: none is known. */
  readonly dropped?: readonly {
    readonly ink: string | null;
    readonly s: number;
    readonly t: number;
    readonly mm2: number;
  }[];
  /** Truck-hole centres on the surface, mm. */
  readonly holes: readonly { readonly s: number; readonly t: number }[];
}

/** Everything the check looks at. Faces without art may be left out. */
export interface CheckInput {
  readonly job: Job;
  readonly faces: readonly FaceFacts[];
}
