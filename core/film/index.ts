export {
  type CalibrationFrame,
  type CalibrationMeasures,
  calibrate,
  calibrationFrame,
  type PrinterScale,
  undoPrinter,
} from './calibration.ts';
export type { FaceLayout, FilmLayout, FilmMark, MarkKind, Seam, SheetLayout } from './faceLayout.ts';
export {
  type FaceBoxes,
  type FacePlan,
  type FilmSheets,
  faceBoxes,
  faceLayout,
  filmSheets,
  joinSheets,
  layOutOne,
  planFace,
  seamsOf,
  sheetPictures,
} from './facePlan.ts';
export type { FilmArt } from './filmArt.ts';
export { type Boxed, type OwnInk, ownInk, type Surveyed } from './filmBox.ts';
export { type GuidePictures, guidePictures, jointFactor, jointsOf, wholeFactor } from './guidePictures.ts';
export { rulerShapes } from './labelStrip.ts';
export { layOutFace } from './layOutFace.ts';
export type { LayOutOptions, LayOutRequest } from './layOutRequest.ts';
export { drawable, inkLabel, lettering, shorten } from './lettering.ts';
export { type FilmManifest, filmManifest } from './manifest.ts';
export { ascii, drawShapes, num, PT } from './operators.ts';
export { filmSeams, type Plan, type PricedSeams } from './planSheets.ts';
export type { FilmPrinter } from './printer.ts';
export { ASLANT } from './seam.ts';
export { type Affine, apply, bar, compose, line, place, ringLine, type Shape } from './shape.ts';
export { BLACK, drawSheet, INSET_PX, sheetOperators } from './sheetOperators.ts';
export {
  customSheet,
  LONGEST_SHEET,
  printerSheet,
  ROLL_WIDTHS,
  rollWidth,
  SHEETS,
  type SheetSize,
  sheetNamed,
} from './sheetSize.ts';
export { type Stencil, sheetStencil, stencilOf } from './stencil.ts';
export { VERNIER_FIRST, VERNIER_TICKS, vernierScale } from './vernier.ts';
export {
  filmBox,
  filmMask,
  pageMask,
  type SheetPicture,
  sheetPicture,
  windowMask,
} from './window.ts';
