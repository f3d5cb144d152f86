import { type ArtSource, artWindows } from './artWindows.ts';
import type { FaceRaster } from './faceRaster.ts';
import type { Art, FaceJob, Job } from './job/index.ts';
import type { Workers } from './ports/index.ts';
import { blankMask, intersect, type Mask, type Picture } from './raster/index.ts';
import { SEPARATE_MARGIN_PX } from './separate/index.ts';
import { blankSet, planTiles, type TilePlan } from './separateFace.ts';
import {
  artArea,
  bedInputs,
  bedShown,
  bedUnderLines,
  blankTones,
  indexInput,
  linesOver,
  screensOf,
} from './toneFace.ts';
import { toneHand } from './toneHand.ts';
import type { TonePlan } from './tonePlan.ts';
import type { IndexInput, SharesInput, ToneTileInput } from './toneTasks.ts';
import { type Abort, cancelled, done, type Outcome, type Progress } from './units/index.ts';

/** What the work needs from outside. */
export interface ToneTools extends ArtSource {
  readonly workers: Workers;
  readonly abort?: Abort | undefined;
}

/** Art is taken this much finer than the tones, so that the average over a tone is a true one. */
const FINER = 2;

/** Points of a window by which tones go on under line work: the face's trap, as far as windows overlap. */
const underLines = (face: FaceJob, piece: Art, pixels: { readonly width: number }): number =>
  Math.min(SEPARATE_MARGIN_PX - 8, 1 + Math.ceil((face.traps.width * pixels.width) / piece.width));

/** What of a toned face's tile is beside the window and its grid: line work to leave out, or a layer's own reading. */
export const tonesOf = (
  plan: TonePlan,
  face: FaceJob,
  piece: Art,
  pixels: { readonly width: number },
): Pick<ToneTileInput, 'lines' | 'takes'> => ({
  ...(plan.lines.length > 0
    ? { lines: { hexes: plan.lines.map(({ hex }) => hex), under: underLines(face, piece, pixels) } }
    : {}),
  ...(face.method === 'layered' && piece.layer ? { takes: piece.layer.takes } : {}),
});

/** A face's tones: its pieces laid over one another through the wrap, averaged in linear light. */
export async function faceTones(
  job: Job,
  plan: TonePlan,
  pieces: readonly Art[],
  tools: ToneTools,
  progress: Progress,
  each?: (piece: Art, alone: Picture) => void,
): Promise<Outcome<Picture>> {
  const { raster } = plan;
  const tones = blankTones(raster, true);
  for (const [n, piece] of pieces.entries()) {
    const source = await artWindows(piece, raster.dpi * FINER, tools);
    if (!source.ok) return source;
    const plans = planTiles(raster, job.faces[raster.face], piece, source.value);
    const alone = each ? blankTones(raster, true) : null;
    let next = 0;
    let finished = 0;
    let failure: Outcome<Picture> | null = null;
    const lane = async () => {
      for (let i = next++; i < plans.length && !failure; i = next++) {
        if (tools.abort?.aborted) {
          failure = cancelled();
          return;
        }
        const tile = plans[i] as TilePlan;
        const window = await source.value.window(tile);
        if (!window.ok) {
          failure = window;
          return;
        }
        const planned = tile.input(window.value, []);
        const { window: shown, grid, ground, part, x, y, width, height } = planned;
        const hand = toneHand(plan, job.faces[raster.face], planned);
        const more = tonesOf(plan, job.faces[raster.face], piece, source.value);
        const input = { window: shown, ground, hand, part, grid, x, y, width, height, ...more };
        await tools.workers.run<ToneTileInput, void>('toneTile', { ...input, out: tones }, tools.abort);
        if (alone)
          await tools.workers.run<ToneTileInput, void>('toneTile', { ...input, out: alone }, tools.abort);
        progress(
          (n + ++finished / plans.length) / pieces.length,
          `${piece.name}, part ${finished} of ${plans.length}`,
        );
      }
    };
    await Promise.all(Array.from({ length: tools.workers.count + 1 }, lane));
    if (failure) return failure;
    if (alone) each?.(piece, alone);
  }
  return done(tones);
}

/** The dots of a toned face, one mask an ink (none for the beds), from its tones. `separations` hold its line work. */
export async function toneSeparations(
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  separations: Mask[],
  { workers, abort }: ToneTools,
): Promise<Outcome<Mask[]>> {
  const face = job.faces[raster.face];
  if (face.method === 'index') {
    const input = indexInput(job, raster, plan, tones, separations);
    await workers.run<IndexInput, void>('indexFace', input, abort);
  } else {
    const shares = await workers.run<SharesInput, Uint8Array[]>(
      'toneShares',
      { tones, palette: plan.palette, hides: plan.hides },
      abort,
    );
    if (abort?.aborted) return cancelled();
    const screens = screensOf(job, raster, plan, tones, shares, separations);
    await Promise.all(screens.map((screen) => workers.run('screenInk', screen, abort)));
  }
  return abort?.aborted ? cancelled() : done(separations);
}

/**
 * What a toned face prints: the dots as they are, for dots are not trapped; the beds solid under all of the art. Line work lies
 * over the dots: in `separations` they then show only beside it.
 */
export async function tonePrints(
  job: Job,
  raster: FaceRaster,
  plan: TonePlan,
  tones: Picture,
  separations: readonly Mask[],
  printable: Mask,
  { workers, abort }: ToneTools,
): Promise<Outcome<Mask[]>> {
  const prints = blankSet(raster, separations.length, true);
  separations.forEach((mask, i) => {
    (prints[i] as Mask).data.set(mask.data);
  });
  linesOver(separations, plan);
  if (plan.beds.length > 0) {
    const bed = blankMask(raster.width, raster.height, true);
    await workers.run('screenInk', artArea(tones, plan.factor, bed), abort);
    bedUnderLines(bed, separations, plan, job.faces[raster.face].inks);
    intersect(bed, printable, bed);
    bedShown(bed, separations, plan);
    const inputs = bedInputs(job, raster, plan, bed, prints);
    await Promise.all(inputs.map((input) => workers.run('printBed', input, abort)));
  }
  return abort?.aborted ? cancelled() : done(prints);
}
