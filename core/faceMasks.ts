import type { Face } from './deck/index.ts';
import { growthOf } from './faceGrowth.ts';
import { refuseMethod, refuseScreen } from './facePreview.ts';
import type { FillInput, PrintableInput } from './facePrintable.ts';
import { faceRaster, type RasterSpace, ringsToPixels } from './faceRaster.ts';
import { isToned, type Job } from './job/index.ts';
import { layeredMasks } from './layeredMasks.ts';
import type { FaceMasks, MaskTools, MaskWork } from './maskWork.ts';
import type { Mask } from './raster/index.ts';
import { jobTrouble } from './sentences/index.ts';
import { spotMasks } from './spotMasks.ts';
import { tonedMasks } from './tonedMasks.ts';
import { done, type Outcome, type Ring } from './units/index.ts';

export type { FaceMasks, MaskTools, PieceMask } from './maskWork.ts';

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
  const wanted: MaskWork = {
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
    ? tonedMasks(wanted)
    : layered
      ? layeredMasks(wanted)
      : spotMasks(wanted));
  if (!made.ok) return made;
  return done({ ...made.value, raster, printable: await printable, growth: growth.value });
}
