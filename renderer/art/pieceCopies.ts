import type { Face } from '../../core/deck/index.ts';
import { type Art, idFrom, type Job } from '../../core/job/index.ts';
import { edit, onFace, useStudio } from '../state/index.ts';

/** mm a copy lies from what it was made of, so that both are seen. */
const STEP = 12;

/** The job with copies laid on top of a face, and the ids they got. */
export function withCopies(
  job: Job,
  face: Face,
  pieces: readonly Art[],
  step: number,
): { readonly job: Job; readonly ids: readonly string[] } {
  const taken = job.faces[face].art.map((a) => a.id);
  // Copies of a group are a group of their own.
  const groups = new Map<string, string>();
  const names = job.faces[face].art.flatMap((a) => a.group ?? []);
  const groupOf = (group: string) => {
    const made = groups.get(group) ?? idFrom('group', [...names, ...groups.values()]);
    groups.set(group, made);
    return made;
  };
  const copies = pieces.map((piece) => {
    const id = idFrom(piece.id, taken);
    taken.push(id);
    const copy = { ...piece, id, x: piece.x + step, y: piece.y - step };
    return piece.group === undefined ? copy : { ...copy, group: groupOf(piece.group) };
  });
  return {
    job: onFace(job, face, (f) => ({ ...f, art: [...f.art, ...copies] })),
    ids: copies.map((c) => c.id),
  };
}

function lay(label: string, pieces: readonly Art[], step: number): void {
  const { job, face } = useStudio.getState();
  if (!job || pieces.length === 0) return;
  const made = withCopies(job, face, pieces, step);
  edit(label, () => made.job);
  useStudio.setState({ selection: made.ids });
}

const named = (verb: string, pieces: readonly Art[]) =>
  pieces.length === 1 ? `${verb} ${pieces[0]!.name}` : `${verb} ${pieces.length} pieces`;

const piecesOf = (ids: readonly string[]): Art[] => {
  const { job, face } = useStudio.getState();
  return job?.faces[face].art.filter((a) => ids.includes(a.id)) ?? [];
};

/** Copies of the pieces, a little aside. */
export function duplicatePieces(ids: readonly string[]): void {
  const pieces = piecesOf(ids);
  lay(named('Duplicate', pieces), pieces, STEP);
}

let held: { readonly pieces: readonly Art[]; readonly face: Face } | null = null;

/** Holds the pieces for `pastePieces`; true when there were any. */
export function copyPieces(ids: readonly string[]): boolean {
  const pieces = piecesOf(ids);
  if (pieces.length > 0) held = { pieces, face: useStudio.getState().face };
  return pieces.length > 0;
}

/** Lays the held pieces on the shown face: in the same place on the other face, a little aside on their own. */
export function pastePieces(): void {
  const { job, art, face } = useStudio.getState();
  // Pieces of another job, whose pictures are not here, can not be laid.
  const pieces = held?.pieces.filter((a) => art.has(a.hash)) ?? [];
  if (!job || !held || pieces.length === 0) return;
  lay(named('Paste', pieces), pieces, held.face === face ? STEP : 0);
}
