import type { Face } from '../../core/deck/index.ts';
import type { Art, Job } from '../../core/job/index.ts';
import { edit, onFace, useStudio } from '../state/index.ts';

/**
 * A piece of art as it lies when carried to the other face. Both faces are seen with the nose to the right, so it keeps
 * its place along the deck; mirrored, it is reflected in the centreline: nose stays nose, and the two graphics lie back
 * to back. A reflection in the s axis is a left-right mirror turned by a half.
 */
export function carried(piece: Art, mirrored: boolean): Art {
  if (!mirrored) return piece;
  const turned = 180 - piece.rotationDeg;
  return { ...piece, y: -piece.y, mirror: !piece.mirror, rotationDeg: turned > 180 ? turned - 360 : turned };
}

/** The job with one face's art and inks on the other face, which had none of its own or loses what it had. */
export function broughtOver(job: Job, from: Face, mirrored: boolean): Job {
  const { art, inks, traps, method, index, halftone, handColours = [] } = job.faces[from];
  const to = from === 'bottom' ? 'top' : 'bottom';
  const dots = { ...(index ? { index } : {}), ...(halftone ? { halftone } : {}) };
  const brought = onFace(job, to, (f) => ({
    ...f,
    art: art.map((a) => carried(a, mirrored)),
    inks,
    traps,
    method,
    handColours,
    ...dots,
  }));
  // How each ink is printed and sold goes with it; the other face's own entries give way with its inks.
  if (!job.press.inkUse) return brought;
  const used = Object.entries(job.press.inkUse).filter(([key]) => !key.startsWith(`${to} `));
  const carriedUse = used.flatMap(([key, use]) =>
    key.startsWith(`${from} `) ? [[`${to} ${key.slice(from.length + 1)}`, use] as const] : [],
  );
  return {
    ...brought,
    press: { ...brought.press, inkUse: Object.fromEntries([...used, ...carriedUse]) },
  };
}

/** Carries the shown face's art and inks to the other face and turns the board over. */
export function bringOver(mirrored: boolean): void {
  const { face } = useStudio.getState();
  const to = face === 'bottom' ? 'top' : 'bottom';
  edit(`Bring art to the ${to}`, (job) => broughtOver(job, face, mirrored));
  useStudio.setState({ face: to, selection: [], inkId: null, aloneId: null, filmPlan: null });
}
