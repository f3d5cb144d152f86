import type { Face } from '../deck/index.ts';
import type { PxBox } from '../raster/index.ts';
import type { Box, Px } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';
import type { FilmPrinter } from './printer.ts';
import type { Affine, Shape } from './shape.ts';

export type MarkKind = 'registration' | 'hole' | 'vernier-along' | 'vernier-across' | 'nose';

/** A mark common to every film of a face, film space mm. `shapes` is what this film prints of it. */
export interface FilmMark {
  readonly kind: MarkKind;
  readonly x: number;
  readonly y: number;
  readonly shapes: readonly Shape[];
}

/** A vernier in an overlap, film space mm: fixed ticks on the lower sheet, moving ones on the other. `reads` the film's own axis. */
export interface SeamScale {
  readonly x: number;
  readonly y: number;
  readonly reads: 'along' | 'across';
}

/** Where one sheet meets another. Film space mm. */
export interface Seam {
  /** Index of the neighbour in the film's `sheets`. */
  readonly with: number;
  /** The strip both sheets show. */
  readonly band: Box;
  /** `across`: the cut runs across the deck (v); `along`: it runs along it (u). */
  readonly runs: 'across' | 'along';
  readonly path: readonly (readonly [number, number])[];
  /** Where the cut crosses ink: middle of the crossing and its length, mm; to touch up with opaque ink. */
  readonly crossings: readonly (readonly [number, number, number])[];
  /** For each crossing, degrees the cut is off square to the ink's edge. */
  readonly slants: readonly number[];
  /** Centres of the cross-hairs both sheets print. */
  readonly crossHairs: readonly (readonly [number, number])[];
  /** Where the scales of the two sheets meet, at their long ticks. */
  readonly scales: readonly SeamScale[];
}

export interface SheetLayout {
  /** From 0, tail to nose, top row first in each column. */
  readonly index: number;
  /** Page in the face, from 0. Films of one sheet each may lie on the same page. */
  readonly page: number;
  readonly column: number;
  readonly row: number;
  readonly window: Box;
  /** The window in pixels from the film's top left corner, y down. */
  readonly windowPx: PxBox;
  /** Film mm → page mm, page origin bottom left; holds turn, mirror and printer scale. */
  readonly filmToPage: Affine;
  /** How the window's picture is turned to lie on the page: 0 as the film, 90 counter-clockwise (nose up). */
  readonly turn: 0 | 90;
  readonly mirror: boolean;
  /** Page pixels at the film's dpi from the page's top left corner where the turned picture begins, at scale 1. */
  readonly imageAt: { readonly x: Px; readonly y: Px };
  readonly seams: readonly Seam[];
  /** Common marks that reach the window and what belongs to the seams, page mm; to be clipped to the window. */
  readonly marks: readonly Shape[];
  /** The label strip, page mm, outside the window. */
  readonly labels: readonly Shape[];
}

export interface FilmLayout {
  readonly art: FilmArt;
  /** Film space mm: this ink's art and its marks, on whole pixels. */
  readonly box: Box;
  readonly widthPx: Px;
  readonly heightPx: Px;
  /** Top left corner of the film in pixels of the art's raster; negative where the film reaches beyond it. */
  readonly offsetPx: { readonly x: Px; readonly y: Px };
  readonly marks: readonly FilmMark[];
  readonly sheets: readonly SheetLayout[];
  readonly inkedCm2: number;
}

/** Lines that part films on one page. Page mm. */
export interface PageLines {
  readonly page: number;
  readonly shapes: readonly Shape[];
}

export interface FaceLayout {
  readonly face: Face;
  readonly dpi: number;
  readonly printer: FilmPrinter;
  /** Pages of transparency, one after another; no more than the films' sheets, fewer where films share one. */
  readonly pages: number;
  /** Cut lines between films that share a page, page mm. */
  readonly cutLines: readonly PageLines[];
  readonly films: readonly FilmLayout[];
  /** Sentences for the user: marks left out, feed directions, seams through ink. */
  readonly notes: readonly string[];
}
