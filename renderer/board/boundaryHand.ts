import type { PointerEvent } from 'react';
import { putBoundaries } from '../acts/index.ts';
import { type FilmShown, sealEdits, toSurfacePoint, useStudio } from '../state/index.ts';

/** CSS pixels beside a shared strip within which it is still taken hold of. */
const REACH = 4;

/** The film on the deck at the Films station, where its sheets may be moved; undefined elsewhere. */
function filmOnDeck(): FilmShown | undefined {
  const { job, face, station, bent, filmPlan, filmView, inkId } = useStudio.getState();
  if (!job || bent || station !== 'films' || filmView !== 'film' || filmPlan?.face !== face) return undefined;
  return filmPlan.films.find((film) => film.inkId === inkId) ?? filmPlan.films[0];
}

type Pointed = Pick<globalThis.PointerEvent, 'clientX' | 'clientY'>;

/** Where the pointer is on the face, mm. */
function surfaceAt(frame: HTMLElement, p: Pointed) {
  const { left, top, width, height } = frame.getBoundingClientRect();
  return toSurfacePoint(useStudio.getState().view, width, height, p.clientX - left, p.clientY - top);
}

/** Which boundary of the film lies under the pointer, counted from the tail; -1 for none. */
function boundaryAt(film: FilmShown, frame: HTMLElement, p: Pointed): number {
  const { s, t } = surfaceAt(frame, p);
  const reach = REACH / useStudio.getState().view.scale;
  const { box } = film;
  if (t < box.y || t > box.y + box.height) return -1;
  const columns = film.sheets.filter((sheet) => sheet.row === 0).map((sheet) => sheet.window);
  return columns
    .slice(1)
    .findIndex(({ x }, i) => s >= x - reach && s <= columns[i]!.x + columns[i]!.width + reach);
}

/** Says by the pointer's shape that a boundary can be taken hold of. */
export function overBoundary(e: PointerEvent<HTMLElement>): void {
  const film = filmOnDeck();
  const over =
    film !== undefined && e.target instanceof HTMLCanvasElement && boundaryAt(film, e.currentTarget, e) >= 0;
  e.currentTarget.classList.toggle('over-boundary', over);
}

/** A press on a strip that two sheets share takes hold of it; the cut is found anew as it moves. Beside the strips the board is free. */
export function takeBoundary(e: PointerEvent<HTMLElement>): void {
  const film = filmOnDeck();
  if (!film || e.button !== 0 || !(e.target instanceof HTMLCanvasElement)) return;
  const frame = e.currentTarget;
  const index = boundaryAt(film, frame, e);
  if (index < 0) return;
  const { face } = useStudio.getState();
  const { boundaries, box } = film.film;
  // mm of film in a mm of the face: films are drawn shorter where the mesh will grow.
  const share = box.width / film.box.width;
  const from = surfaceAt(frame, e).s;
  e.preventDefault();
  e.stopPropagation();
  sealEdits();
  const move = (p: globalThis.PointerEvent) => {
    const by = (surfaceAt(frame, p).s - from) * share;
    putBoundaries(
      face,
      film.inkId,
      boundaries.map((mm, i) => (i === index ? mm + by : mm)),
    );
  };
  const end = () => {
    window.removeEventListener('pointermove', move);
    window.removeEventListener('pointerup', end);
    window.removeEventListener('pointercancel', end);
    sealEdits();
  };
  window.addEventListener('pointermove', move);
  window.addEventListener('pointerup', end);
  window.addEventListener('pointercancel', end);
}
