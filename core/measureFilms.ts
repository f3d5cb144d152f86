import { FACES, type Growth } from './deck/index.ts';
import { growthOf } from './faceGrowth.ts';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { type FaceLayout, type FilmLayout, filmMask, type LayOutRequest } from './film/index.ts';
import type { FinenessInput } from './filmFineness.ts';
import type { Job } from './job/index.ts';
import { layOutRequest } from './layOutRequest.ts';
import type { FilmMeasure, FineMap } from './press/index.ts';
import { type Box, badInput, cancelled, done, MM_PER_INCH, type Outcome } from './units/index.ts';

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
  if (faces.length === 0) return badInput('This job has no art and inks yet.', 'Place some art first.');
  const { dpi } = job.printer;
  const measures: FilmMeasure[] = [];
  for (const [i, face] of faces.entries()) {
    const part = (share: number, text: string) => say((i + share) / faces.length, text);
    const growth = growthOf(job, face);
    if (!growth.ok) return growth;
    const made = await faceMasks(job, face, dpi, 'film', {
      ...request,
      progress: (share, text) => part(share * 0.5, text),
    });
    if (!made.ok) return made;
    const asked = layOutRequest(job, made.value);
    if (!asked.ok) return asked;
    const laid = await workers.run<LayOutRequest, Outcome<FaceLayout>>('layOutFace', asked.value, abort);
    if (!laid.ok) return laid;
    const { films } = laid.value;
    let ready = 0;
    part(0.55, `${face}: measuring film 1 of ${films.length}`);
    // A film at a time for each thread, so that no more masks live than there are threads.
    const next = [...films.keys()];
    const measured: FilmMeasure[] = [];
    const thread = async () => {
      for (let at = next.shift(); at !== undefined; at = next.shift()) {
        if (abort?.aborted) return;
        const film = films[at] as FilmLayout;
        const map = await workers.run<FinenessInput, FineMap>(
          'filmFineness',
          { mask: filmMask(film), dpi },
          abort,
        );
        const { columns, rows, lines, gaps, finest } = map;
        measured[at] = {
          face,
          inkId: film.art.inkId,
          inkedCm2: film.inkedCm2,
          sheets: film.sheets.length,
          ...finest,
          fine: { box: onSurface(film, map, dpi, growth.value), columns, rows, lines, gaps },
        };
        ready++;
        part(
          0.55 + (0.45 * ready) / films.length,
          `${face}: measuring film ${Math.min(films.length, ready + 1)} of ${films.length}`,
        );
      }
    };
    await Promise.all(Array.from({ length: workers.count }, thread));
    if (abort?.aborted) return cancelled();
    measures.push(...measured);
  }
  say(1, 'done');
  return done(measures);
}
