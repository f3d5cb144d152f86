import * as Comlink from 'comlink';
import type { FaceJob } from '../../core/job/index.ts';
import { printAll } from '../../core/printInk.ts';
import { blankMask, type Mask, union } from '../../core/raster/index.ts';
import { type RegisterCurve, registerCurve } from '../../core/trap/index.ts';

export interface TrialRequest {
  readonly face: FaceJob;
  readonly separations: readonly Mask[];
  readonly dpi: number;
  readonly toleranceMm: number;
  readonly trials: number;
  readonly widthsMm: readonly number[];
  /** mm²: the area of all gaps together that 95 trials of 100 must keep within. */
  readonly limitMm2: number;
}

/** Register errors tried on every trap width. The worker is made for one run and ended to stop it. */
const api = {
  curve(request: TrialRequest, progress: (done: number, text: string) => void): RegisterCurve {
    const { face, separations, dpi } = request;
    const first = separations[0]!;
    const wanted = blankMask(first.width, first.height);
    for (const mask of separations) union(wanted, mask, wanted);
    const place = face.inks.findIndex((ink) => ink.role === 'base');
    let said = 0;
    return registerCurve({
      wanted,
      printsAt: (width) => printAll(separations, { ...face, traps: { ...face.traps, width } }, dpi),
      widthsMm: request.widthsMm,
      limit: { areaMm2: request.limitMm2 },
      toleranceMm: request.toleranceMm,
      trials: request.trials,
      seed: 1,
      dpi,
      base: place >= 0 ? { place, own: separations[place]! } : null,
      progress: (share, text) => {
        // A message for every hundredth is plenty.
        if (share < said + 0.01 && share < 1) return;
        said = share;
        progress(share, text);
      },
    });
  },
};

export type TrialWorker = typeof api;
Comlink.expose(api);
