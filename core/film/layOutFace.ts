import type { Face } from '../deck/index.ts';
import type { FilmPoint, Outcome } from '../units/index.ts';
import type { FaceLayout } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import type { FilmPrinter } from './printer.ts';

export interface LayOutRequest {
  readonly face: Face;
  readonly jobName: string;
  /** In pull order, sharing dpi, box and size. */
  readonly films: readonly FilmArt[];
  /** Truck-hole centres in film space. */
  readonly holes: readonly FilmPoint[];
  readonly printer: FilmPrinter;
  readonly options?: LayOutOptions;
}

export interface LayOutOptions {
  /** `straight` cuts only, or `shaped` where they cross less art. */
  readonly cuts?: 'straight' | 'shaped';
  /** Vernier scales at the main marks and in the overlaps. */
  readonly verniers?: boolean;
}

/** Marks, sheets, seams and page places of all films of one face. */
export function layOutFace(_request: LayOutRequest): Outcome<FaceLayout> {
  throw new Error('being written');
}
