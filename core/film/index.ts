export type { FaceLayout, FilmLayout, FilmMark, MarkKind, PxBox, Seam, SheetLayout } from './faceLayout.ts';
export type { FilmArt } from './filmArt.ts';
export { type LayOutOptions, type LayOutRequest, layOutFace } from './layOutFace.ts';
export { type FilmManifest, filmManifest } from './manifest.ts';
export type { FilmPrinter } from './printer.ts';
export { type Affine, apply, bar, compose, line, place, ringLine, type Shape } from './shape.ts';
export { customSheet, LONGEST_SHEET, SHEETS, type SheetSize, sheetNamed } from './sheetSize.ts';
export { filmMask, pageMask, windowMask } from './window.ts';
