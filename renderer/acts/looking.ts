import type { Picture } from '../../core/raster/index.ts';
import { type StudioState, tell, useStudio } from '../state/index.ts';
import { type GlassRequest, glass, latestWins, type MovedRequest } from '../workers/index.ts';
import { shell } from './shell.ts';
import { failed, working } from './working.ts';

/** Longer side, pixels, of art behind the loupe: about 200 an inch on the longest deck. */
const GLASS_SIDE = 6400;

async function decode(hash: string): Promise<Picture | null> {
  const { art, job } = useStudio.getState();
  const bytes = art.get(hash);
  if (!bytes || !job) return null;
  const name = [...job.faces.bottom.art, ...job.faces.top.art].find((a) => a.hash === hash)?.name ?? 'art';
  const decoded = await shell().decodeArt(bytes, name, GLASS_SIDE);
  if (!decoded.ok) return null;
  // A host may hand over a view into a longer message; kernels read pixels as whole words, and the bytes change hands.
  return { ...decoded.value, data: decoded.value.data.slice() };
}

/** The worker that looks closely, with the art of the shown face. */
export function glassOf(state: StudioState): ReturnType<typeof glass> {
  const pieces = state.job?.faces[state.face].art.filter((a) => !a.hidden) ?? [];
  return glass([...new Set(pieces.map((a) => a.hash))], decode);
}

/** What a close look needs to know of the document; null where there is nothing to look at. */
export function glassRequest(state: StudioState): Omit<GlassRequest, 'window'> | null {
  const { job, face, station, filmView, inkId, colourwayId, moved } = state;
  const inks = job?.faces[face].inks ?? [];
  if (!job || inks.length === 0 || job.faces[face].art.length === 0) return null;
  const onFilms = station === 'films' && filmView === 'film';
  return {
    job,
    face,
    veneerId: job.veneers.find((v) => v.id === state.veneerId)?.id ?? job.veneers[0]!.id,
    colourwayId,
    moved: station === 'traps' ? moved : null,
    filmId: onFilms ? (inks.find((i) => i.id === inkId) ?? inks[0]!).id : null,
    spreads: station === 'traps',
  };
}

/** Keeps the face with one pull out of register in step with the slider. Returns what stops it. */
export function keepMoved(): () => void {
  const draw = latestWins(
    async (request: MovedRequest) => (await glassOf(useStudio.getState())).moved(request),
    (made, request) => {
      working('moved', false);
      if (!made.ok) return tell('trouble', made.reason, made.mend);
      const { face, moved } = useStudio.getState();
      if (face === request.face && moved) useStudio.setState({ movedProof: { face, ...made.value } });
    },
    failed('moved'),
  );
  return useStudio.subscribe((now, before) => {
    const keys = ['moved', 'job', 'face', 'veneerId', 'colourwayId', 'station'] as const;
    if (!keys.some((k) => now[k] !== before[k])) return;
    if (now.station !== 'traps' || !now.moved) {
      if (now.movedProof) useStudio.setState({ movedProof: null });
      return;
    }
    const request = glassRequest(now);
    if (!request) return;
    working('moved', true);
    draw(request);
  });
}
