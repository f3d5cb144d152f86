import type { Face } from '../../core/deck/index.ts';
import { type Art, idFrom, type Job } from '../../core/job/index.ts';
import { onFace } from './faceEdits.ts';

/** The ids with those of every piece grouped with one of them, in the order the pieces lie. */
export function withGroups(art: readonly Art[], ids: readonly string[]): string[] {
  const groups = new Set(art.filter((a) => ids.includes(a.id)).flatMap((a) => a.group ?? []));
  return art
    .filter((a) => ids.includes(a.id) || (a.group !== undefined && groups.has(a.group)))
    .map((a) => a.id);
}

/** The pieces as one group; those that were in others leave them. */
export function grouped(job: Job, face: Face, ids: readonly string[]): Job {
  const taken = job.faces[face].art.flatMap((a) => a.group ?? []);
  const group = idFrom('group', taken);
  return onFace(job, face, (f) => ({
    ...f,
    art: f.art.map((a) => (ids.includes(a.id) ? { ...a, group } : a)),
  }));
}

/** The pieces each for itself again. */
export function ungrouped(job: Job, face: Face, ids: readonly string[]): Job {
  return onFace(job, face, (f) => ({
    ...f,
    art: f.art.map((a) => {
      if (!ids.includes(a.id) || a.group === undefined) return a;
      const { group: _, ...rest } = a;
      return rest;
    }),
  }));
}

export type Order = 'front' | 'forward' | 'back' | 'rear';

/** The pieces brought forward or back among the others; they keep their order among themselves. Already there: the same job. */
export function reordered(job: Job, face: Face, ids: readonly string[], order: Order): Job {
  const { art } = job.faces[face];
  const mine = art.filter((a) => ids.includes(a.id));
  const others = art.filter((a) => !ids.includes(a.id));
  if (mine.length === 0) return job;
  const first = art.findIndex((a) => ids.includes(a.id));
  const last = art.findLastIndex((a) => ids.includes(a.id));
  // How many of the others lie beneath the pieces afterwards.
  const beneath = {
    front: others.length,
    rear: 0,
    forward: Math.min(others.length, others.filter((o) => art.indexOf(o) < last).length + 1),
    back: Math.max(0, others.filter((o) => art.indexOf(o) < first).length - 1),
  }[order];
  const next = [...others.slice(0, beneath), ...mine, ...others.slice(beneath)];
  return next.every((a, i) => a === art[i]) ? job : onFace(job, face, (f) => ({ ...f, art: next }));
}

const within = (deg: number) => (deg > 180 ? deg - 360 : deg <= -180 ? deg + 360 : deg);

/**
 * A piece seen in a mirror that stands at `at` mm: `along` swaps nose and tail sides, `across` the two rails' sides. A
 * reflection is a left-right mirror of the art with a turn.
 */
export function reflected(piece: Art, way: 'along' | 'across', at: number): Art {
  if (way === 'along')
    return { ...piece, x: 2 * at - piece.x, mirror: !piece.mirror, rotationDeg: within(-piece.rotationDeg) };
  return {
    ...piece,
    y: 2 * at - piece.y,
    mirror: !piece.mirror,
    rotationDeg: within(180 - piece.rotationDeg),
  };
}
