import type { Face } from '../../core/deck/index.ts';
import {
  type Art,
  type Colourway,
  type FaceJob,
  type Ink,
  type Job,
  type Press,
  type Printer,
  type Traps,
  type Veneer,
  withoutInk,
} from '../../core/job/index.ts';

/** Pure changes to the document; `edit` makes undoable steps of them. */
export const onFace = (job: Job, face: Face, change: (f: FaceJob) => FaceJob): Job => {
  const before = job.faces[face];
  const after = change(before);
  return after === before ? job : { ...job, faces: { ...job.faces, [face]: after } };
};

const replaced = <T extends { id: string }>(list: readonly T[], id: string, change: Partial<T>): T[] =>
  list.map((item) => (item.id === id ? { ...item, ...change } : item));

/** The list with one item moved to `index`. */
export function moved<T>(list: readonly T[], from: number, index: number): T[] {
  const copy = [...list];
  const [item] = copy.splice(from, 1);
  if (item !== undefined) copy.splice(Math.max(0, Math.min(copy.length, index)), 0, item);
  return copy;
}

export const changeArt = (job: Job, face: Face, id: string, change: Partial<Art>): Job =>
  onFace(job, face, (f) => ({ ...f, art: replaced(f.art, id, change) }));
export const removeArt = (job: Job, face: Face, ids: readonly string[]): Job =>
  onFace(job, face, (f) => ({ ...f, art: f.art.filter((a) => !ids.includes(a.id)) }));

export const changeInk = (job: Job, face: Face, id: string, change: Partial<Ink>): Job =>
  onFace(job, face, (f) => ({ ...f, inks: replaced(f.inks, id, change) }));
export const addInk = (job: Job, face: Face, ink: Ink): Job =>
  onFace(job, face, (f) => ({ ...f, inks: ink.role === 'base' ? [ink, ...f.inks] : [...f.inks, ink] }));
export const moveInk = (job: Job, face: Face, from: number, to: number): Job =>
  onFace(job, face, (f) => ({ ...f, inks: moved(f.inks, from, to) }));
export const removeInk = (job: Job, face: Face, id: string): Job =>
  onFace(job, face, (f) => withoutInk(f, id));

export const changeTraps = (job: Job, face: Face, change: Partial<Traps>): Job =>
  onFace(job, face, (f) => ({ ...f, traps: { ...f.traps, ...change } }));
export const changeFace = (job: Job, face: Face, change: Partial<FaceJob>): Job =>
  onFace(job, face, (f) => ({ ...f, ...change }));
type Guide = NonNullable<FaceJob['guides']>[number];
/** The face with a guide placed at the end of its list (`index` null), moved, or taken away (`guide` null). */
export const changeGuide = (job: Job, face: Face, index: number | null, guide: Guide | null): Job =>
  onFace(job, face, (f) => {
    const guides = [...(f.guides ?? [])];
    if (guide) guides.splice(index ?? guides.length, 1, guide);
    else if (index !== null) guides.splice(index, 1);
    return { ...f, guides };
  });
export const changePrinter = (job: Job, change: Partial<Printer>): Job => ({
  ...job,
  printer: { ...job.printer, ...change },
});
export const changePress = (job: Job, change: Partial<Press>): Job => ({
  ...job,
  press: { ...job.press, ...change },
});
export const changeVeneer = (job: Job, id: string, change: Partial<Veneer>): Job => ({
  ...job,
  veneers: replaced(job.veneers, id, change),
});
export const changeColourway = (job: Job, id: string, change: Partial<Colourway>): Job => ({
  ...job,
  colourways: replaced(job.colourways, id, change),
});

/** The job's inks in the colours of one colourway. */
export function inkColour(
  job: Job,
  ink: Ink,
  colourwayId: string | null,
): { readonly name: string; readonly hex: string } {
  const other = job.colourways.find((c) => c.id === colourwayId)?.colours[ink.id];
  return other ?? { name: ink.name, hex: ink.hex };
}

/** Where the sheets of one film meet, mm along the film; null leaves it to the program. */
export const moveBoundaries = (job: Job, face: Face, inkId: string, mm: readonly number[] | null): Job =>
  onFace(job, face, (f) => {
    const { [inkId]: _old, ...others } = f.boundaries ?? {};
    return { ...f, boundaries: mm === null ? others : { ...others, [inkId]: [...mm] } };
  });

/** Do two documents differ in nothing but where sheets meet? Compared part by part, as edits share what they leave alone. */
export function sameButBoundaries(a: Job, b: Job): boolean {
  const same = (x: object, y: object, but: string) =>
    [...new Set([...Object.keys(x), ...Object.keys(y)])].every(
      (k) => k === but || (x as Record<string, unknown>)[k] === (y as Record<string, unknown>)[k],
    );
  return (
    same(a, b, 'faces') &&
    same(a.faces.bottom, b.faces.bottom, 'boundaries') &&
    same(a.faces.top, b.faces.top, 'boundaries')
  );
}
