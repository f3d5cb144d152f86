import { artWindows } from './artWindows.ts';
import type { FaceRaster } from './faceRaster.ts';
import type { Art, Job } from './job/index.ts';
import type { MaskTools } from './maskWork.ts';
import type { Mask } from './raster/index.ts';
import { addTally, type UnplannedTally } from './separate/index.ts';
import { planTiles, type TilePlan } from './separateFace.ts';
import type { OneInk, TileInput } from './separateTile.ts';
import { sharedWindow } from './sharedWindow.ts';
import { turns } from './turns.ts';
import { cancelled, done, type Outcome, type Progress } from './units/index.ts';

/** Windows drawn ahead of the threads, each up to 30 MB. */
const AHEAD = 2;

/**
 * Separates one piece into `out`, tile by tile, as many at once as there are workers and two more drawn ahead.
 */
export async function separatePiece(
  raster: FaceRaster,
  job: Job,
  piece: Art,
  out: readonly Mask[],
  tally: UnplannedTally,
  tools: MaskTools,
  progress: Progress,
  one?: OneInk,
): Promise<Outcome<null>> {
  const source = await artWindows(piece, raster.dpi, tools);
  if (!source.ok) return source;
  const plans = planTiles(raster, job.faces[raster.face], piece, source.value);
  let next = 0;
  let finished = 0;
  let failure: Outcome<null> | null = null;
  // The first windows are there soonest when no more are drawn at once than there are processors.
  const inTurn = turns(tools.workers.count);
  const lane = async () => {
    const shared = sharedWindow();
    for (let i = next++; i < plans.length && !failure; i = next++) {
      if (tools.abort?.aborted) {
        failure = cancelled();
        return;
      }
      const plan = plans[i] as TilePlan;
      // Whoever was stopped while it waited for its turn draws nothing any more.
      const window = await inTurn(async () =>
        tools.abort?.aborted ? cancelled() : source.value.window(plan),
      );
      if (!window.ok) {
        failure = window;
        return;
      }
      const input = { ...plan.input(shared(window.value), out), one };
      addTally(tally, await tools.workers.run<TileInput, UnplannedTally>('separateTile', input, tools.abort));
      progress(++finished / plans.length, `${piece.name}, part ${finished} of ${plans.length}`);
    }
  };
  // Two lanes more than workers keep them fed: with one, the last window was drawn only after a thread had waited for it.
  await Promise.all(Array.from({ length: tools.workers.count + AHEAD }, lane));
  return failure ?? done(null);
}
