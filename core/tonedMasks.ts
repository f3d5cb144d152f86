import { finishOnThreads } from './finishOnThreads.ts';
import type { Art } from './job/index.ts';
import type { MadeMasks, MaskWork, PieceMask } from './maskWork.ts';
import { blankMask, type Mask, subtract } from './raster/index.ts';
import { unplannedTally } from './separate/index.ts';
import { blankSet } from './separateFace.ts';
import { separatePiece } from './separatePiece.ts';
import type { OneInk } from './separateTile.ts';
import { artArea } from './toneFace.ts';
import { faceTones, tonePrints, toneSeparations } from './toneFaceMasks.ts';
import { toneColours } from './toneHand.ts';
import { type TonePlan, tonePlan } from './tonePlan.ts';
import { screenInk } from './toneTasks.ts';
import { done, type Outcome } from './units/index.ts';

/** Shaded art: dots of single inks or screened tones. No specks are dropped, for dots are specks; no dots are trapped. */
export async function tonedMasks({
  job,
  raster,
  pieces,
  printable,
  piecesToo,
  tools,
  say,
}: MaskWork): Promise<Outcome<MadeMasks>> {
  const { face } = raster;
  const plan = tonePlan(job, raster);
  const each: PieceMask[] = [];
  const tones = await faceTones(
    job,
    plan,
    pieces,
    tools,
    (part, text) => say(0.4 * part, `${face}: tones of ${text}`),
    piecesToo
      ? (piece, alone) => {
          const inked = blankMask(raster.width, raster.height);
          screenInk(artArea(alone, plan.factor, inked));
          each.push({ id: piece.id, inked, unplanned: [] });
        }
      : undefined,
  );
  if (!tones.ok) return tones;
  const blank = blankSet(raster, job.faces[face].inks.length, true);
  const lined = await lineWork({ job, raster, pieces, tools, say }, plan, blank);
  if (!lined.ok) return lined;
  say(0.45, `${face}: making dots`);
  const dots = await toneSeparations(job, raster, plan, tones.value, blank, tools);
  if (!dots.ok) return dots;
  const separations = dots.value;
  await finishOnThreads(separations, await printable, 0, [], tools);
  say(0.85, `${face}: inks as they print`);
  const prints = await tonePrints(job, raster, plan, tones.value, separations, await printable, tools);
  if (!prints.ok) return prints;
  say(1, `${face}: inks as they print`);
  return done({ separations, prints: prints.value, dropped: [], unplanned: [], pieces: each });
}

/** Line work among tones, cut sharp into its inks' masks; what an upper piece covers is gone. */
async function lineWork(
  { job, raster, pieces, tools, say }: Pick<MaskWork, 'job' | 'raster' | 'pieces' | 'tools' | 'say'>,
  plan: TonePlan,
  out: readonly Mask[],
): Promise<Outcome<null>> {
  if (plan.lines.length === 0) return done(null);
  const hand = toneColours(plan, job.faces[raster.face]);
  const separate = (piece: Art, one: OneInk, mask: Mask) =>
    separatePiece(
      raster,
      job,
      piece,
      [mask],
      unplannedTally(),
      tools,
      (_, text) => say(0.42, `${raster.face}: line work of ${text}`),
      one,
    );
  for (const [n, piece] of pieces.entries()) {
    if (n > 0) {
      const area = blankMask(raster.width, raster.height, true);
      const made = await separate(piece, { takes: 'alpha', hand }, area);
      if (!made.ok) return made;
      for (const { ink } of plan.lines) subtract(out[ink] as Mask, area, out[ink] as Mask);
    }
    for (const { ink, hex } of plan.lines) {
      const made = await separate(piece, { line: hex, hand }, out[ink] as Mask);
      if (!made.ok) return made;
    }
  }
  return done(null);
}
