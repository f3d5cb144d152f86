import { holesOnSurface } from './deck/index.ts';
import type { FaceMasks } from './faceMasks.ts';
import type { FilmArt, LayOutRequest } from './film/index.ts';
import { type Job, screenedInks } from './job/index.ts';
import { jobPrinter } from './jobPrinter.ts';
import { inkScreen, tonePlan } from './tonePlan.ts';
import { done, type Outcome } from './units/index.ts';

/** A face's inks as they print, in film space. */
export type FacePrints = Pick<FaceMasks, 'raster' | 'prints'>;

/** The ruling and angle the dots really have, for the label; none for line work and for a bed beneath the dots. */
function screenOf(job: Job, made: FacePrints, ink: number): Pick<FilmArt, 'screen'> {
  const settings = job.faces[made.raster.face];
  const screened = settings.method === 'halftone' ? tonePlan(job, made.raster).inks : screenedInks(settings);
  if (!screened.includes(ink)) return {};
  const screen = inkScreen(settings, ink, made.raster.dpi);
  if (!screen) return {};
  const tenth = (v: number) => Math.round(v * 10) / 10;
  return { screen: { lpi: tenth(screen.lpi), angleDeg: tenth(screen.angle) } };
}

function filmArts(job: Job, made: FacePrints): FilmArt[] {
  const { inks } = job.faces[made.raster.face];
  return inks.map((ink, i) => ({
    ...screenOf(job, made, i),
    inkId: ink.id,
    inkName: ink.name,
    hex: ink.hex,
    pull: i + 1,
    pulls: inks.length,
    meshPerCm: ink.meshPerCm,
    mask: made.prints[i] as FilmArt['mask'],
    box: made.raster.box,
    dpi: made.raster.dpi,
  }));
}

/** What the layout needs of one face: its films in pull order, its truck holes, the printer and its sheet. */
export function layOutRequest(job: Job, made: FacePrints): Outcome<LayOutRequest> {
  const printed = jobPrinter(job);
  if (!printed.ok) return printed;
  const { raster } = made;
  return done({
    face: raster.face,
    jobName: job.name,
    films: filmArts(job, made),
    holes: holesOnSurface(job.deck, raster.face).map(({ s, t }) => {
      const at = raster.fromSurface(s as number, t as number);
      return { u: at.x, v: at.y };
    }),
    printer: printed.value.printer,
    options: { ...printed.value.options, boundaries: job.faces[raster.face].boundaries ?? {} },
  });
}
