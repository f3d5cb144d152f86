export { complement, intersect, subtract, union } from './algebra.ts';
export { solveArt } from './art.ts';
export type { Band } from './band.ts';
export { bareRows } from './bareRows.ts';
export { bendShares } from './bendShares.ts';
export { blankWay } from './blankWay.ts';
export { blueNoiseTile } from './blueNoise.ts';
export { inkCells } from './cells.ts';
export { type CheapestPath, cheapestPath } from './cheapestPath.ts';
export {
  type ColourAxis,
  type ColourTable,
  colourAxis,
  TABLE_STEPS,
} from './colourTable.ts';
export {
  type Component,
  components,
  dropSpecks,
  erasePiece,
  holes,
} from './components.ts';
export { decodeG4 } from './decodeG4.ts';
export { deflate } from './deflate.ts';
export { discSquares } from './disc.ts';
export { distanceSquared } from './distance.ts';
export { downsample } from './downsample.ts';
export { drawInRows } from './drawIn.ts';
export { draw, maskOf } from './drawing.ts';
export { feelEdges } from './edges.ts';
export { encodeG4 } from './encodeG4.ts';
export { enlargeMask, screenEnlarged } from './enlarge.ts';
export { errorDiffuse } from './errorDiffuse.ts';
export { errorDiffuseMixtures } from './errorDiffuseMixtures.ts';
export { fillRings } from './fillRings.ts';
export { grow, opening, shrink, thinParts } from './grow.ts';
export { inkAlong } from './inkAlong.ts';
export { joined } from './joined.ts';
export type { ArtTables } from './kernels/artFast.ts';
export type { CellGrid } from './kernels/cellsPlain.ts';
export { type DrawIn, NO_DISC } from './kernels/drawInPlain.ts';
export { FACING, INKED, MIXED } from './kernels/edgesPlain.ts';
export { type PathOverInk, RUN } from './kernels/inkAlongPlain.ts';
export { wakeKernels } from './kernels/load.ts';
export { type Memo, newMemo } from './kernels/lookUpPlain.ts';
export type { SoftPoints } from './kernels/softPointsFast.ts';
export type { SoftTables } from './kernels/softTables.ts';
export type { InkSurvey } from './kernels/surveyPlain.ts';
export { walkLanes } from './lanes.ts';
export { lookUp } from './lookUp.ts';
export {
  blankLike,
  blankMask,
  copyInk,
  copyMask,
  getBit,
  type Mask,
  rowsOf,
  setBit,
  signedWords,
  strideFor,
} from './mask.ts';
export { equal, inkCount, inkedBox, isBlank, type PxBox } from './measure.ts';
export { msbRows } from './msbRows.ts';
export { halved, type Picture } from './picture.ts';
export { blankPlane, type Plane } from './plane.ts';
export { pureCores } from './pureCores.ts';
export {
  type DotShape,
  halftoneMask,
  type Screen,
  type ScreenTile,
  screenTile,
  tonesOfDot,
} from './screenTile.ts';
export { sharesByTable } from './sharesByTable.ts';
export { smallPieces } from './smallPieces.ts';
export { explainedCores, softShares, thinCores } from './softPoints.ts';
export { borrowBlank, borrowMask, giveBack } from './spareMasks.ts';
export { type SparseCoverage, spreadPlanes } from './sparseCoverage.ts';
export { spreadRows } from './spread.ts';
export { surveyedBox, surveyInk } from './survey.ts';
export { thresholdMask } from './thresholdMask.ts';
export { thresholdShares, tileAt } from './thresholdShares.ts';
export type { ThresholdTile } from './thresholdTile.ts';
export { thumbnail } from './thumbnail.ts';
export { warpArgmax, warpSparse } from './warp.ts';
export type { WarpGrid } from './warpGrid.ts';
export { crop, paste } from './window.ts';
