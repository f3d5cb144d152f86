import { holesOnSurface } from './deck/index.ts';
import type { FaceMasks } from './faceMasks.ts';
import type { FilmArt, LayOutRequest } from './film/index.ts';
import type { Job } from './job/index.ts';
import { jobPrinter } from './jobPrinter.ts';
import { done, type Outcome } from './units/index.ts';

function filmArts(job: Job, made: FaceMasks): FilmArt[] {
  const { inks } = job.faces[made.raster.face];
  return inks.map((ink, i) => ({
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
export function layOutRequest(job: Job, made: FaceMasks): Outcome<LayOutRequest> {
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
    ...printed.value,
  });
}
