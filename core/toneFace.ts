import type { FaceRaster } from './faceRaster.ts';
import { DEFAULT_HALFTONE, DEFAULT_INDEX, type FaceJob, type Ink, type Job } from './job/index.ts';
import { onBase } from './printInk.ts';
import { copyMask, intersect, type Mask, type Picture, subtract, tileAt, union } from './raster/index.ts';
import { gainTable } from './separate/index.ts';
import { blankSet } from './separateFace.ts';
import { grainOf, inkScreen, type TonePlan } from './tonePlan.ts';
import {
  alphaOf,
  type BedInput,
  HALF,
  type IndexInput,
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

/** Tones as the film must hold them for the press to print those asked for. */
function forPress(face: FaceJob, share: Uint8Array): Uint8Array {
  const { gain } = face.halftone ?? DEFAULT_HALFTONE;
  if (!gain) return share;
  const table = gainTable(gain);
  return share.map((v) => table[v] as number);
}

/** One ink's dots from its tones; `grain` tells inks apart where the cells are too coarse for dots. */
export function screenOf(
  job: Job,
  raster: FaceRaster,
  factor: number,
  ink: number,
  tones: { readonly width: number; readonly height: number; readonly share: Uint8Array },
  grain: number,
  out: Mask,
): ScreenInput {
  const face = job.faces[raster.face];
  const { x, y } = raster.offset ?? { x: 0, y: 0 };
  return {
    plane: { width: tones.width, height: tones.height, data: forPress(face, tones.share) },
    factor,
    tile: tileAt(inkScreen(face, ink, raster.dpi) ?? grainOf(grain), x, y),
    out,
  };
}

/** What placing a face's index dots takes. */
export function indexInput(
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  separations: readonly Mask[],
): IndexInput {
  const { dither } = job.faces[raster.face].index ?? DEFAULT_INDEX;
  const { x, y } = raster.offset ?? { x: 0, y: 0 };
  return {
    tones,
    palette: plan.palette,
    factor: plan.factor,
    out: plan.inks.map((ink) => separations[ink] as Mask),
    ...(dither === 'blue-noise'
      ? { grain: { x: Math.round(x / plan.factor), y: Math.round(y / plan.factor) } }
      : {}),
  };
}

/** The screens of a halftone, one for each of the plan's inks. */
export const screensOf = (
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  shares: readonly Uint8Array[],
  out: readonly Mask[],
): ScreenInput[] =>
  plan.inks.map((ink, i) => {
    const { width, height } = tones;
    const share = shares[i] as Uint8Array;
    return screenOf(job, raster, plan.factor, ink, { width, height, share }, i, out[ink] as Mask);
  });

/** Dots show only where no line work lies over them; they print on under it. */
export function linesOver(separations: readonly Mask[], plan: TonePlan): void {
  for (const { ink: line } of plan.lines)
    for (const ink of plan.inks) {
      const dots = separations[ink] as Mask;
      subtract(dots, separations[line] as Mask, dots);
    }
}

/** The bed's own separation: what of it no ink covers. */
export function bedShown(bed: Mask, separations: readonly Mask[], plan: TonePlan): void {
  for (const at of plan.beds) {
    const shown = copyMask(bed, separations[at] as Mask);
    for (const ink of plan.inks) subtract(shown, separations[ink] as Mask, shown);
    for (const { ink } of plan.lines) subtract(shown, separations[ink] as Mask, shown);
  }
}

/** The bed reaches under line work too, where that needs the base. */
export function bedUnderLines(
  bed: Mask,
  separations: readonly Mask[],
  plan: TonePlan,
  inks: readonly Ink[],
): void {
  for (const { ink } of plan.lines) if (onBase(inks[ink] as Ink)) union(bed, separations[ink] as Mask, bed);
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

/**
 * All of it in one go where there are no threads: separations and prints from a face's tones, cut to `printable`.
 * `separations` hold the line work already and are changed.
 */
export function toneMasks(
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  printable: Mask,
  separations: Mask[],
): { separations: Mask[]; prints: Mask[] } {
  if (job.faces[raster.face].method === 'index') {
    indexFace(indexInput(job, raster, plan, tones, separations));
  } else {
    const shares = toneShares({ tones, palette: plan.palette, hides: plan.hides });
    for (const screen of screensOf(job, raster, plan, tones, shares, separations)) screenInk(screen);
  }
  for (const mask of separations) intersect(mask, printable, mask);
  const prints = separations.map((mask) => copyMask(mask));
  linesOver(separations, plan);
  if (plan.beds.length > 0) {
    const bed = blankSet(raster, 1, false)[0] as Mask;
    screenInk(artArea(tones, plan.factor, bed));
    bedUnderLines(bed, separations, plan, job.faces[raster.face].inks);
    intersect(bed, printable, bed);
    bedShown(bed, separations, plan);
    for (const input of bedInputs(job, raster, plan, bed, prints)) printBed(input);
  }
  return { separations, prints };
}
