export { afterPaint } from './afterPaint.ts';
export { type Edit, emptyHistory, type History, record, redone, seal, undone } from './edit.ts';
export {
  addInk,
  changeArt,
  changeColourway,
  changeFace,
  changeGuide,
  changeInk,
  changePress,
  changePrinter,
  changeTraps,
  changeVeneer,
  inkColour,
  moveBoundaries,
  moved,
  moveInk,
  onFace,
  removeArt,
  removeInk,
  sameButBoundaries,
} from './faceEdits.ts';
export { fineOf, freshMeasures } from './fine.ts';
export { type HandStroke, type HandTool, NO_STROKE, type PickedColour } from './hand.ts';
export { hatchGround } from './hatchGround.ts';
export { formatLength, lengthNumber, type Units } from './length.ts';
export { grouped, type Order, reflected, reordered, ungrouped, withGroups } from './pieces.ts';
export { printedReady } from './ready.ts';
export type {
  FilmPlan,
  FilmShown,
  Heat,
  InkPair,
  Proofs,
  SheetsShown,
  SheetWindow,
  Spread,
} from './shown.ts';
export {
  type ArtPicture,
  dismiss,
  type ExportState,
  edit,
  type MadeFiles,
  type Notice,
  redo,
  type StudioState,
  sealEdits,
  tell,
  undo,
  useStudio,
} from './store.ts';
export {
  fitView,
  MAX_SCALE,
  MIN_SCALE,
  STATION_TITLES,
  STATIONS,
  type Station,
  toScreen,
  toSurfacePoint,
  type View,
  zoomedAt,
} from './view.ts';
