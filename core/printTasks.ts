import type { FaceJob } from './job/index.ts';
import { filmInk, printColour } from './printInk.ts';
import { type Mask, union } from './raster/index.ts';
import { endTiles } from './separateTile.ts';
import { type BaseRequest, chokeRows, withoutCrumbs } from './trap/index.ts';

export interface PrintInput {
  readonly separations: readonly Mask[];
  readonly ink: number;
  readonly face: FaceJob;
  readonly dpi: number;
  /** Takes its separation and its traps; a base's bed comes later. */
  readonly out: Mask;
}
/** Rows of a base's bed to choke into the same rows of `out`. */
export interface ChokeInput {
  readonly bed: BaseRequest;
  readonly from: number;
  readonly to: number;
  readonly out: Mask;
}
export interface BedInput {
  readonly bed: BaseRequest;
  readonly choked: Mask;
}
export interface FilmInput {
  readonly separations: readonly Mask[];
  readonly ink: number;
  readonly face: FaceJob;
  readonly dpi: number;
  /** The ink as it prints; changed into what its film has. */
  readonly print: Mask;
}

/** What threads do for the prints of a face; `printFace` shares it out. Masks lie in shared memory and are changed in place. */
export const PRINT_TASKS = {
  printInk: ({ separations, ink, face, dpi, out }: PrintInput): void => {
    endTiles();
    printColour(separations, ink, face, dpi, undefined, out);
  },
  chokeRows: ({ bed, from, to, out }: ChokeInput): void => chokeRows(bed, from, to, out),
  /** The choked bed without crumbs, added to what the base prints by itself. */
  layBed: ({ bed, choked }: BedInput): void => {
    withoutCrumbs(bed, choked);
    union(bed.own, choked, bed.own);
  },
  filmInk: ({ separations, ink, face, dpi, print }: FilmInput): void => {
    print.data.set(filmInk(separations, print, ink, face, dpi).data);
  },
} as const;
