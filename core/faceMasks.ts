import { type ArtSource, artWindows } from './artWindows.ts';
import type { Face } from './deck/index.ts';
import { growthOf } from './faceGrowth.ts';
import { refuseMethod, refuseScreen } from './facePreview.ts';
import type { FillInput, PrintableInput } from './facePrintable.ts';
import { type FaceRaster, faceRaster, type RasterSpace, ringsToPixels } from './faceRaster.ts';
import type { DroppedSpeck } from './finishFace.ts';
import { finishOnThreads } from './finishOnThreads.ts';
import { keptInks } from './handInks.ts';
import { type Art, isToned, type Job, screenedInks } from './job/index.ts';
import { layersOf, solidOnly, tintArea } from './layers.ts';
import type { Workers } from './ports/index.ts';
import { printFace } from './printFace.ts';
import { blankMask, intersect, type Mask, subtract, union } from './raster/index.ts';
import { jobTrouble } from './sentences/index.ts';
import {
  addTally,
  type Unplanned,
  type UnplannedTally,
  unplannedOf,
  unplannedTally,
} from './separate/index.ts';
import { blankSet, planTiles, type TilePlan } from './separateFace.ts';
import type { OneInk, TileInput } from './separateTile.ts';
import { sharedWindow } from './sharedWindow.ts';
import { artArea, screenOf } from './toneFace.ts';
import { faceTones, tonePrints, toneSeparations } from './toneFaceMasks.ts';
import { toneColours } from './toneHand.ts';
import { type TonePlan, tonePlan } from './tonePlan.ts';
import { alphaOf, screenInk } from './toneTasks.ts';
import { turns } from './turns.ts';
import {
  type Abort,
  cancelled,
  done,
  type Outcome,
  type Progress,
  pxPerMm,
  type Ring,
} from './units/index.ts';

/** What the work needs from outside. */
export interface MaskTools extends ArtSource {
  readonly workers: Workers;
  readonly progress?: Progress | undefined;
  readonly abort?: Abort | undefined;
  /** Is told of an ink's print once it is done, where others still take time; not of every ink by every method. */
  readonly printed?: ((print: Mask) => void) | undefined;
}

/** Where one piece has anything to print, not cut to the printable area, and its colours near no ink. */
export interface PieceMask {
  readonly id: string;
  readonly inked: Mask;
  readonly unplanned: readonly Unplanned[];
}

/** A face at full resolution, inks in pull order, masks in shared memory. In film space prints are as the films have them. */
export interface FaceMasks {
  readonly raster: FaceRaster;
  readonly separations: readonly Mask[];
  readonly prints: readonly Mask[];
  readonly printable: Mask;
  readonly dropped: readonly DroppedSpeck[];
  readonly unplanned: readonly Unplanned[];
  /** By piece, only when asked for. */
  readonly pieces: readonly PieceMask[];
  readonly growth: { readonly along: number; readonly across: number };
}

/** Windows drawn ahead of the threads, each up to 30 MB. */
const AHEAD = 2;

/**
 * Separates one piece into `out`, tile by tile, as many at once as there are workers and two more drawn ahead.
 */
async function separatePiece(
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

/**
 * The separations and prints of one face at `dpi`, in film space or along the wood. Results do not depend on the number of
 * workers.
 */
export async function faceMasks(
  job: Job,
  face: Face,
  dpi: number,
  space: 'film' | 'surface',
  tools: MaskTools,
  piecesToo = false,
): Promise<Outcome<FaceMasks>> {
  const can = refuseMethod(job, face);
  if (!can.ok) return can;
  const fine = space === 'film' ? refuseScreen(job, face, dpi) : done(null);
  if (!fine.ok) return fine;
  const settings = job.faces[face];
  const pieces = settings.art.filter((piece) => !piece.hidden);
  if (pieces.length === 0) return jobTrouble.faceWithoutArt(face);
  if (settings.inks.length === 0) return jobTrouble.faceWithoutInks(face);
  const growth = space === 'film' ? growthOf(job, face) : done({ along: 0, across: 0 });
  if (!growth.ok) return growth;
  const { development, railMargin } = settings;
  const grid: RasterSpace =
    space === 'film' ? { kind: 'film', development, growth: growth.value, railMargin } : { kind: 'surface' };
  // Threads wait for the first windows: one of them finds meanwhile where ink may go. Whether it can is seen where that is asked for.
  const { deck, faces, press } = job;
  const { workers, abort } = tools;
  const where: PrintableInput = { job: { deck, faces, press }, face };
  const rings = workers.run<PrintableInput, Ring[]>('printable', where, abort);
  const raster = faceRaster(deck, face, dpi, grid);
  const { width, height } = raster;
  const printable = rings.then((found) =>
    workers.run<FillInput, Mask>('fillRings', { rings: ringsToPixels(raster, found), width, height }, abort),
  );
  printable.catch(() => {});
  const wanted: Wanted = {
    job,
    raster,
    pieces,
    printable,
    film: space === 'film',
    piecesToo,
    tools,
    say: tools.progress ?? (() => {}),
  };
  const layered = settings.method === 'layered';
  const made = await (isToned(settings)
    ? tonedFace(wanted)
    : layered
      ? layeredFace(wanted)
      : spotFace(wanted));
  if (!made.ok) return made;
  return done({ ...made.value, raster, printable: await printable, growth: growth.value });
}

/** What is the same for every method. */
interface Wanted {
  readonly job: Job;
  readonly raster: FaceRaster;
  readonly pieces: readonly Art[];
  /** Where ink may go. */
  readonly printable: Promise<Mask>;
  readonly film: boolean;
  readonly piecesToo: boolean;
  readonly tools: MaskTools;
  readonly say: Progress;
}
type Made = Omit<FaceMasks, 'raster' | 'printable' | 'growth'>;

/** Shaded art: dots of single inks or screened tones. No specks are dropped, for dots are specks; no dots are trapped. */
async function tonedFace({
  job,
  raster,
  pieces,
  printable,
  piecesToo,
  tools,
  say,
}: Wanted): Promise<Outcome<Made>> {
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
  { job, raster, pieces, tools, say }: Pick<Wanted, 'job' | 'raster' | 'pieces' | 'tools' | 'say'>,
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

/** Art prepared one ink a layer: each cut at one half, or screened; layers may overlap, and then both print. */
async function layeredFace({
  job,
  raster,
  printable,
  film,
  piecesToo,
  tools,
  say,
}: Wanted): Promise<Outcome<Made>> {
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

/** Flat art: each point one ink or none, specks dropped, edges trapped. */
async function spotFace({
  job,
  raster,
  pieces,
  printable,
  film,
  piecesToo,
  tools,
  say,
}: Wanted): Promise<Outcome<Made>> {
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
