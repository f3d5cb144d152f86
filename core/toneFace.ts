import type { FaceRaster } from './faceRaster.ts';
import type { Job } from './job/index.ts';
import { copyMask, intersect, type Mask, type Picture, subtract } from './raster/index.ts';
import { blankSet } from './separateFace.ts';
import { grainOf, inkScreen, type TonePlan } from './tonePlan.ts';
import {
  alphaOf,
  type BedInput,
  HALF,
  indexFace,
  printBed,
  type ScreenInput,
  screenInk,
  toneShares,
} from './toneTasks.ts';

/** An empty picture for the tones of a face. */
export function blankTones({ width, height }: FaceRaster, shared: boolean): Picture {
  const bytes = width * height * 4;
  const data = shared ? new Uint8Array(new SharedArrayBuffer(bytes)) : new Uint8Array(bytes);
  return { width, height, data };
}

/** Where the face has art, at full resolution. */
export const artArea = (tones: Picture, factor: number, out: Mask): ScreenInput => ({
  plane: alphaOf(tones),
  factor,
  tile: HALF,
  out,
});

/** The screens of a halftone, one for each of the plan's inks. */
export const screensOf = (
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  shares: readonly Uint8Array[],
  out: readonly Mask[],
): ScreenInput[] =>
  plan.inks.map((ink, i) => ({
    plane: { width: tones.width, height: tones.height, data: shares[i] as Uint8Array },
    factor: plan.factor,
    tile: inkScreen(job.faces[raster.face], ink, raster.dpi) ?? grainOf(i),
    out: out[ink] as Mask,
  }));

/** The bed's own separation: what of it no ink covers. */
export function bedShown(bed: Mask, separations: readonly Mask[], plan: TonePlan): void {
  for (const at of plan.beds) {
    const shown = copyMask(bed, separations[at] as Mask);
    for (const ink of plan.inks) subtract(shown, separations[ink] as Mask, shown);
  }
}

/** What a toned face's printing needs beside the dots: the beds' prints. */
export const bedInputs = (
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  bed: Mask,
  prints: readonly Mask[],
): BedInput[] =>
  plan.beds.map((at) => ({
    bed,
    face: job.faces[raster.face],
    dpi: raster.dpi,
    out: prints[at] as Mask,
  }));

/** All of it in one go where there are no threads: separations and prints from a face's tones, cut to `printable`. */
export function toneMasks(
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  printable: Mask,
): { separations: Mask[]; prints: Mask[] } {
  const separations = blankSet(raster, job.faces[raster.face].inks.length, false);
  if (job.faces[raster.face].method === 'index') {
    const out = plan.inks.map((ink) => separations[ink] as Mask);
    indexFace({ tones, palette: plan.palette, factor: plan.factor, out });
  } else {
    const shares = toneShares({ tones, palette: plan.palette, hides: plan.hides });
    for (const screen of screensOf(job, raster, plan, tones, shares, separations)) screenInk(screen);
  }
  for (const mask of separations) intersect(mask, printable, mask);
  const prints = separations.map((mask) => copyMask(mask));
  if (plan.beds.length > 0) {
    const bed = blankSet(raster, 1, false)[0] as Mask;
    screenInk(artArea(tones, plan.factor, bed));
    intersect(bed, printable, bed);
    bedShown(bed, separations, plan);
    for (const input of bedInputs(job, raster, plan, bed, prints)) printBed(input);
  }
  return { separations, prints };
}
