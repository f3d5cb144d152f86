import { FACES } from '../../deck/index.ts';
import type { JobRule } from '../rule.ts';

/** Layers that no ink is chosen for: all of them leave a face without films, some of them are easily forgotten. */
export const layerWithoutInk: JobRule = (job) =>
  FACES.flatMap((face) => {
    const { art, inks, method } = job.faces[face];
    if (method !== 'layered' || inks.length === 0) return [];
    const shown = art.filter((piece) => !piece.hidden);
    const lost = shown.filter(({ layer }) => !inks.some(({ id }) => id === layer?.ink));
    const all = lost.length === shown.length;
    return lost.map((piece) => ({
      code: 'layer-without-ink',
      severity: all ? ('error' as const) : ('note' as const),
      face,
      ink: null,
      art: piece.id,
      what: `The layer “${piece.name}” prints nothing: no ink is chosen for it.`,
      where: 'whole face',
      at: null,
      mend: 'Choose its ink, or hide the layer if it is only a guide.',
    }));
  });
