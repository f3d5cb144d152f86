import { type Job, newJob } from '../../../core/job/index.ts';
import { PLAIN } from '../deck/anyDeck.ts';

/** A run of two inks in two colourways, with nothing recorded yet. */
export function newRun(): Job {
  const blank = newJob({ name: 'Run', deck: PLAIN });
  const ink = (id: string, hex: string) => ({
    id,
    name: id,
    hex,
    opacity: 0.9,
    kind: 'opaque' as const,
    role: 'colour' as const,
    needsBase: [],
    meshPerCm: 77,
  });
  return {
    ...blank,
    faces: {
      ...blank.faces,
      bottom: { ...blank.faces.bottom, inks: [ink('coral', '#e8613c'), ink('key', '#1b2440')] },
    },
    colourways: [
      { id: 'drawn', name: 'As drawn', colours: {} },
      { id: 'lilac', name: 'Lilac', colours: { coral: { name: 'Lilac', hex: '#b58fd0' } } },
    ],
  };
}
