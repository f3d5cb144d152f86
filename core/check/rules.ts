import type { FaceRule, JobRule } from './rule.ts';
import { artOutside } from './rules/artOutside.ts';
import { artWithoutInk } from './rules/artWithoutInk.ts';
import { baseMissing } from './rules/baseMissing.ts';
import { baseOrder } from './rules/baseOrder.ts';
import { blankInk } from './rules/blankInk.ts';
import { chokedDetail } from './rules/chokedDetail.ts';
import { dotsForMesh } from './rules/dotsForMesh.ts';
import { droppedSpecks } from './rules/droppedSpecks.ts';
import { fadedInFlat } from './rules/fadedInFlat.ts';
import { filmFitsNoSheet } from './rules/filmFitsNoSheet.ts';
import { fineGaps } from './rules/fineGaps.ts';
import { fineLines } from './rules/fineLines.ts';
import { holeInArt } from './rules/holeInArt.ts';
import { jobWithoutArt } from './rules/jobWithoutArt.ts';
import { layerWithoutInk } from './rules/layerWithoutInk.ts';
import { lightOverDark } from './rules/lightOverDark.ts';
import { lowResolution } from './rules/lowResolution.ts';
import { nearVeneer } from './rules/nearVeneer.ts';
import { runNeeds } from './rules/runNeeds.ts';
import { screenTooFine } from './rules/screenTooFine.ts';
import { trapMeetsUnderLine } from './rules/trapMeetsUnderLine.ts';
import { trapTooWide } from './rules/trapTooWide.ts';
import { unplannedColour } from './rules/unplannedColour.ts';

/** In the order their lines appear among equals. */
export const JOB_RULES: readonly JobRule[] = [
  jobWithoutArt,
  artWithoutInk,
  layerWithoutInk,
  screenTooFine,
  baseOrder,
  runNeeds,
  fadedInFlat,
];
export const FACE_RULES: readonly FaceRule[] = [
  filmFitsNoSheet,
  artOutside,
  lowResolution,
  unplannedColour,
  blankInk,
  dotsForMesh,
  baseMissing,
  nearVeneer,
  fineLines,
  fineGaps,
  trapTooWide,
  trapMeetsUnderLine,
  lightOverDark,
  chokedDetail,
  holeInArt,
  droppedSpecks,
];

/** Rules about drawn edges, which dots would all break: they do not look at shaded art. */
export const EDGE_RULES: ReadonlySet<FaceRule> = new Set([
  fineLines,
  fineGaps,
  trapTooWide,
  trapMeetsUnderLine,
  lightOverDark,
  chokedDetail,
]);
