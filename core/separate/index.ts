export type { Coverage } from './coverage.ts';
export { filmTone, type Gain, gainTable, printedTone, type TonePatch } from './dotGain.ts';
export { isGrainy } from './grain.ts';
export { groundOf } from './ground.ts';
export { type HandRegion, type HandRegions, layRegions, NO_REGIONS } from './handRegions.ts';
export { type ArtFrame, type HandShape, handCover } from './handShape.ts';
export { type HandTones, withHand } from './handTones.ts';
export { artToTry, type InkFit, type InkFitOptions, inkFit, type TriedArt } from './inkFit.ts';
export type { SeparatePalette } from './labels.ts';
export { type LayerTakes, layerCoverage, layerTones } from './layerCoverage.ts';
export { lineCoverage, withoutLines } from './lineCoverage.ts';
export { nearestInk } from './nearestInk.ts';
export { placeEdges, placePlaneEdges } from './placeEdges.ts';
export { screenedShares } from './screenedShares.ts';
export {
  GRAINY_MARGIN_PX,
  SEPARATE_MARGIN_PX,
  type SeparateOptions,
  separateSparse,
  separateWindow,
} from './separateWindow.ts';
export { type AroundOptions, suggestAround, type TriedInks } from './suggestAround.ts';
export { type InkSuggestion, type SuggestOptions, suggestInks } from './suggestInks.ts';
export { type TonePalette, type UnmixTable, unmixPicture, unmixTable } from './unmix.ts';
export {
  addTally,
  type Unplanned,
  type UnplannedTally,
  unplannedOf,
  unplannedTally,
} from './unplanned.ts';
export { warpTonesOver, withoutGround } from './warpTones.ts';
export { Workspace } from './workspace.ts';
