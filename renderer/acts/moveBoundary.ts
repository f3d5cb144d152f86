import type { Face } from '../../core/deck/index.ts';
import { edit, moveBoundaries } from '../state/index.ts';

/** Moves where an ink's sheets meet, mm of its film from tail to nose; null lets Kickflat choose. */
export function putBoundaries(face: Face, inkId: string, mm: readonly number[] | null): void {
  const label = mm ? 'Move a sheet boundary' : 'Give a sheet boundary back';
  // A drag is one step to undo, and giving a boundary back another.
  edit(label, (j) => moveBoundaries(j, face, inkId, mm), mm ? `boundary ${inkId}` : null);
}
