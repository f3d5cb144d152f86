import { finishOnThreads } from './finishOnThreads.ts';
import { keptInks } from './handInks.ts';
import type { MadeMasks, MaskWork, PieceMask } from './maskWork.ts';
import { printFace } from './printFace.ts';
import { blankMask, union } from './raster/index.ts';
import { addTally, unplannedOf, unplannedTally } from './separate/index.ts';
import { blankSet } from './separateFace.ts';
import { separatePiece } from './separatePiece.ts';
import { cancelled, done, type Outcome, type Progress, pxPerMm } from './units/index.ts';

/** Flat art: each point one ink or none, specks dropped, edges trapped. */
export async function spotMasks({
  job,
  raster,
  pieces,
  printable,
  film,
  piecesToo,
  tools,
  say,
}: MaskWork): Promise<Outcome<MadeMasks>> {
  const { face, dpi } = raster;
  const settings = job.faces[face];
  const separations = blankSet(raster, settings.inks.length, true);
  const tally = unplannedTally();
  const each: PieceMask[] = [];
  for (const [i, piece] of pieces.entries()) {
    const out = i === 0 ? separations : blankSet(raster, settings.inks.length, true);
    const own = unplannedTally();
    const told: Progress = (part, text) =>
      say((0.7 * (i + part)) / pieces.length, `${face}: separating ${text}`);
    const made = await separatePiece(raster, job, piece, out, own, tools, told);
    if (!made.ok) return made;
    addTally(tally, own);
    if (piecesToo) {
      const inked = blankMask(raster.width, raster.height);
      for (const mask of out) union(inked, mask, inked);
      each.push({ id: piece.id, inked, unplanned: unplannedOf(own) });
    }
    if (out !== separations)
      await tools.workers.run('layOver', { below: separations, piece: out }, tools.abort);
  }
  if (tools.abort?.aborted) return cancelled();
  say(0.72, `${face}: dropping specks`);
  const smallestPx = settings.smallest * pxPerMm(dpi) ** 2;
  const dropped = await finishOnThreads(separations, await printable, smallestPx, keptInks(settings), tools);
  const { printed } = tools;
  const wanted = { raster, face: settings, separations, film, printed };
  const prints = await printFace(wanted, tools, (share, text) =>
    say(0.75 + 0.25 * share, `${face}: ${text}`),
  );
  if (!prints.ok) return prints;
  return done({ separations, prints: prints.value, dropped, unplanned: unplannedOf(tally), pieces: each });
}
