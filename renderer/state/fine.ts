import type { Job } from '../../core/job/index.ts';
import { measureKey } from '../../core/measureKey.ts';
import { type FilmMeasure, meshFigures } from '../../core/press/index.ts';
import { meshOf } from '../../core/runOf.ts';
import type { StudioState } from './store.ts';

const keys = new WeakMap<Job, string>();
const keyOf = (job: Job): string => {
  const key = keys.get(job) ?? measureKey(job);
  keys.set(job, key);
  return key;
};

/** The measured films, as long as they are those the job would make now. */
export const freshMeasures = ({
  job,
  measures,
}: Pick<StudioState, 'job' | 'measures'>): readonly FilmMeasure[] | null =>
  job && measures && measures.key === keyOf(job) ? measures.films : null;

/** The chosen pull's measured film and the finest width its mesh holds, mm; null where there is none. */
export function fineOf(state: StudioState): { measure: FilmMeasure; finestHeld: number } | null {
  const { job, face, inkId } = state;
  const films = freshMeasures(state)?.filter((film) => film.face === face);
  const measure = films?.find((film) => film.inkId === inkId) ?? films?.[0];
  const ink = job?.faces[face].inks.find((one) => one.id === measure?.inkId);
  if (!job || !measure || !ink) return null;
  const figures = meshFigures(meshOf(job, face, ink));
  return figures.ok ? { measure, finestHeld: figures.value.result.finestLine } : null;
}
