import { FACES, type Growth } from './deck/index.ts';
import { eachFilm } from './eachFilm.ts';
import type { MaskTools } from './faceMasks.ts';
import type { FilmLayout } from './film/index.ts';
import type { FinenessInput } from './filmFineness.ts';
import type { Job } from './job/index.ts';
import { layFaces } from './layFaces.ts';
import type { FilmMeasure, FineMap } from './press/index.ts';
import { jobTrouble } from './sentences/index.ts';
import { type Box, done, MM_PER_INCH, type Outcome } from './units/index.ts';

export interface MeasureRequest extends MaskTools {
  readonly job: Job;
}

/** The map's cells over the deck. Film space is the surface made smaller by the mesh's growth alone. */
function onSurface({ box: film }: FilmLayout, map: FineMap, dpi: number, growth: Growth): Box {
  const mm = MM_PER_INCH / dpi;
  const [along, across] = [1 + growth.along, 1 + growth.across];
  const height = map.rows * map.cellPx * mm;
  return {
    x: (film.x + map.x * mm) * along,
    y: (film.y + film.height - map.y * mm - height) * across,
    width: map.columns * map.cellPx * mm * along,
    height: height * across,
  };
}

/** Every film of the job, as it will be exported, measured: area, sheets, finest line and gap, and where. */
export async function measureFilms(request: MeasureRequest): Promise<Outcome<FilmMeasure[]>> {
  const { job, abort, workers } = request;
  const say = request.progress ?? (() => {});
  const faces = FACES.filter(
    (face) => job.faces[face].inks.length > 0 && job.faces[face].art.some((piece) => !piece.hidden),
  );
  if (faces.length === 0) return jobTrouble.nothingToPrint();
  const { dpi } = job.printer;
  const laid = await layFaces({ ...request, faces, progress: (share, text) => say(share * 0.55, text) });
  if (!laid.ok) return laid;
  const measures: FilmMeasure[] = [];
  for (const [i, { made, laid: layout }] of laid.value.entries()) {
    const { face } = made.raster;
    const { films } = layout;
    const measuring = (ready: number) =>
      say(
        0.55 + (0.45 * (i + ready / films.length)) / faces.length,
        `${face}: measuring film ${Math.min(films.length, ready + 1)} of ${films.length}`,
      );
    measuring(0);
    const measured = await eachFilm(
      films,
      request,
      async (film, mask) => {
        const map = await workers.run<FinenessInput, FineMap>('filmFineness', { mask, dpi }, abort);
        const { columns, rows, lines, gaps, finest } = map;
        return done({
          face,
          inkId: film.art.inkId,
          inkedCm2: film.inkedCm2,
          sheets: film.sheets.length,
          ...finest,
          fine: { box: onSurface(film, map, dpi, made.growth), columns, rows, lines, gaps },
        });
      },
      measuring,
    );
    if (!measured.ok) return measured;
    measures.push(...measured.value);
  }
  say(1, 'done');
  return done(measures);
}
