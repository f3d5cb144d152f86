import { type LinearRgb, linearOfHex } from './colour/index.ts';
import type { FaceRaster } from './faceRaster.ts';
import {
  DEFAULT_HALFTONE,
  DEFAULT_INDEX,
  type FaceJob,
  type Ink,
  type Job,
  LEAST_CELL,
  lineInks,
  screenAngle,
} from './job/index.ts';
import { onBase } from './printInk.ts';
import { lookOf } from './proof/index.ts';
import { blueNoiseTile, type ScreenTile, screenTile, type ThresholdTile, tileAt } from './raster/index.ts';
import type { TonePalette } from './separate/index.ts';
import { pxPerMm } from './units/index.ts';

/** Tones are sampled this often to a line of the screen: two are needed, a third keeps edges. */
const SAMPLES_A_LINE = 3;

/** What a toned face is made of. Inks by their place in the pull order. */
export interface TonePlan {
  /** Points of the face's raster to one of the tones'. */
  readonly factor: number;
  /** The face's grid in tones: same top left corner, `factor` times coarser, reaching as far or a little further. */
  readonly raster: FaceRaster;
  /** Inks that show the art, and what they look like on bare ground. */
  readonly inks: readonly number[];
  readonly palette: TonePalette;
  /** Share of what lies under each of `inks` that it hides. */
  readonly hides: readonly number[];
  /** Inks that lie solid beneath all of the art. */
  readonly beds: readonly number[];
  /** Inks cut sharp as line work, and the colours of the art they print. */
  readonly lines: readonly { readonly ink: number; readonly hex: string }[];
}

/** Points of the raster to a dot or to a sample of tone. */
export function toneFactor(face: FaceJob, dpi: number): number {
  if (face.method === 'index')
    return Math.max(1, Math.round((face.index ?? DEFAULT_INDEX).dotMm * pxPerMm(dpi)));
  return Math.max(1, Math.floor(dpi / ((face.halftone ?? DEFAULT_HALFTONE).lpi * SAMPLES_A_LINE)));
}

/**
 * What an ink looks like, solid, over a ground. An ink's own colour is how one pass of it looks, so that art of that colour is
 * that ink and no mixture; only a transparent ink takes its look from what lies under it.
 */
function solid(ink: Ink, hex: string, ground: LinearRgb): LinearRgb {
  if (ink.kind !== 'transparent' && !ink.measured) return linearOfHex(hex);
  const look = lookOf({ hex, opacity: ink.opacity, kind: ink.kind, measured: ink.measured });
  const over = (c: 0 | 1 | 2) => look[c].body + (look[c].through * ground[c]) / (1 - look[c].r0 * ground[c]);
  return [over(0), over(1), over(2)];
}

/**
 * How a face of shaded art is split. Where any ink needs the base, the base lies solid beneath all of the art and the inks
 * mix with its colour; else they mix with the wood of the veneer that most decks have. A clear coat shows no art.
 */
export function tonePlan(job: Job, raster: FaceRaster): TonePlan {
  const face = job.faces[raster.face];
  const factor = toneFactor(face, raster.dpi);
  const scale = pxPerMm(raster.dpi);
  const width = Math.ceil(raster.width / factor);
  const height = Math.ceil(raster.height / factor);
  const top = raster.box.y + raster.box.height;
  const box = {
    x: raster.box.x,
    y: top - (height * factor) / scale,
    width: (width * factor) / scale,
    height: (height * factor) / scale,
  };
  const needed = face.inks.some(onBase);
  const order = face.inks.map((ink, at) => ({ ink, at }));
  const beds = needed ? order.filter(({ ink }) => ink.role === 'base') : [];
  const veneer = job.veneers.reduce((most, v) => (v.decks > most.decks ? v : most));
  let bare = linearOfHex(veneer.hex);
  for (const { ink } of beds) bare = solid(ink, ink.hex, bare);
  const lines = lineInks(face);
  const shown = order.filter((o) => !beds.includes(o) && o.ink.kind !== 'clear' && !lines.includes(o.at));
  return {
    factor,
    raster: { ...raster, dpi: raster.dpi / factor, box, width, height },
    inks: shown.map(({ at }) => at),
    palette: { bare, inks: shown.map(({ ink }) => solid(ink, ink.matches ?? ink.hex, bare)) },
    hides: shown.map(({ ink }) => ink.opacity),
    beds: beds.map(({ at }) => at),
    lines: order
      .filter(({ at }) => lines.includes(at))
      .map(({ ink, at }) => ({ ink: at, hex: ink.matches ?? ink.hex })),
  };
}

/** The screen of one ink at a resolution, as it lies on the whole face; null where its cells are too coarse there for dots, and a grain of the same tone stands for them. */
export function inkScreen(face: FaceJob, ink: number, dpi: number): ScreenTile | null {
  const { lpi, dot } = face.halftone ?? DEFAULT_HALFTONE;
  if (dpi / lpi < LEAST_CELL) return null;
  return screenTile({ lpi, dot, angle: screenAngle(face, ink), dpi });
}

/** A grain that stands for dots too small to be seen: blue noise, moved for each ink so that inks overlap by chance. */
export const grainOf = (ink: number): ThresholdTile => tileAt(blueNoiseTile(), ink * 23, ink * 37);
