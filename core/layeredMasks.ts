import { finishOnThreads } from './finishOnThreads.ts';
import { keptInks } from './handInks.ts';
import { screenedInks } from './job/index.ts';
import { layersOf, solidOnly, tintArea } from './layers.ts';
import type { MadeMasks, MaskWork, PieceMask } from './maskWork.ts';
import { printFace } from './printFace.ts';
import { blankMask, intersect, type Mask } from './raster/index.ts';
import { unplannedTally } from './separate/index.ts';
import { blankSet } from './separateFace.ts';
import { separatePiece } from './separatePiece.ts';
import { screenOf } from './toneFace.ts';
import { faceTones } from './toneFaceMasks.ts';
import { tonePlan } from './tonePlan.ts';
import { alphaOf } from './toneTasks.ts';
import { cancelled, done, type Outcome, pxPerMm } from './units/index.ts';

/** Art prepared one ink a layer: each cut at one half, or screened; layers may overlap, and then both print. */
export async function layeredMasks({
  job,
  raster,
  printable,
  film,
  piecesToo,
  tools,
  say,
}: MaskWork): Promise<Outcome<MadeMasks>> {
  const { face, dpi } = raster;
  const settings = job.faces[face];
  const { workers, abort } = tools;
  const layers = layersOf(settings);
  const screened = new Set(screenedInks(settings));
  const separations = blankSet(raster, settings.inks.length, true);
  const each: PieceMask[] = [];
  for (const [n, { piece, ink }] of layers.entries()) {
    const one = { takes: piece.layer?.takes ?? 'alpha' } as const;
    const alone = piecesToo ? blankMask(raster.width, raster.height, true) : null;
    const into = [alone, screened.has(ink) ? null : (separations[ink] as Mask)];
    for (const mask of into) {
      if (!mask) continue;
      const say1 = (part: number, text: string) =>
        say((0.6 * (n + part)) / layers.length, `${face}: layer ${text}`);
      const made = await separatePiece(raster, job, piece, [mask], unplannedTally(), tools, say1, one);
      if (!made.ok) return made;
    }
    if (alone) each.push({ id: piece.id, inked: alone, unplanned: [] });
  }
  const areas = new Map<number, Mask>();
  for (const ink of screened) {
    const plan = tonePlan(job, raster);
    const own = layers.filter((layer) => layer.ink === ink).map(({ piece }) => piece);
    const tones = await faceTones(job, plan, own, tools, (_, text) => say(0.65, `${face}: tones of ${text}`));
    if (!tones.ok) return tones;
    const { width, height, data: share } = alphaOf(tones.value);
    const dots = separations[ink] as Mask;
    const size = { width, height, share };
    await workers.run('screenInk', screenOf(job, raster, plan.factor, ink, size, ink, dots), abort);
    const area = blankMask(raster.width, raster.height, true);
    await workers.run('screenInk', tintArea(tones.value, plan.factor, area), abort);
    areas.set(ink, intersect(area, await printable, area));
    intersect(dots, await printable, dots);
  }
  if (abort?.aborted) return cancelled();
  say(0.72, `${face}: dropping specks`);
  const cut = settings.inks.flatMap((_, i) => (screened.has(i) ? [] : [i]));
  const dropped = await finishOnThreads(
    cut.map((i) => separations[i] as Mask),
    await printable,
    settings.smallest * pxPerMm(dpi) ** 2,
    keptInks(settings).filter((_, i) => !screened.has(i)),
    tools,
  );
  const prints = await printFace(
    {
      raster,
      face: settings,
      separations: solidOnly(settings, separations, true),
      dots: new Map([...screened].map((ink) => [ink, separations[ink] as Mask])),
      areas,
      film,
      printed: tools.printed,
    },
    tools,
    (share, text) => say(0.75 + 0.25 * share, `${face}: ${text}`),
  );
  if (!prints.ok) return prints;
  say(1, `${face}: inks as they print`);
  const specks = dropped.map((speck) => ({ ...speck, ink: cut[speck.ink] ?? -1 }));
  return done({ separations, prints: prints.value, dropped: specks, unplanned: [], pieces: each });
}
