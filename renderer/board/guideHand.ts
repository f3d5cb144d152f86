import type { PointerEvent } from 'react';
import { changeGuide, edit, sealEdits, toScreen, toSurfacePoint, useStudio } from '../state/index.ts';
import { RULER } from './drawRulers.ts';
import { typeSize } from './paint.ts';

/** CSS pixels within which a press on a ruler takes hold of a guide that is there. */
const REACH = 6;
/** Guides stop at tenths of a millimetre. */
const tenth = (mm: number) => Math.round(mm * 10) / 10;

/**
 * A press on a ruler pulls a guide out of it: from the left one a line across the deck, from the upper one a line along it. A
 * guide is taken hold of again where it crosses a ruler, and put away by leaving it on the ruler it came from.
 */
export function takeGuide(e: PointerEvent<HTMLElement>): void {
  const { job, face, station, bent } = useStudio.getState();
  if (!job || bent || e.button !== 0 || (station !== 'art' && station !== 'deck')) return;
  const frame = e.currentTarget.getBoundingClientRect();
  const { width, height } = frame;
  const place = (p: { readonly clientX: number; readonly clientY: number }) => ({
    x: p.clientX - frame.left,
    y: p.clientY - frame.top,
  });
  const from = place(e);
  const ruler = RULER * typeSize();
  const [inTop, inLeft] = [from.y < ruler, from.x < ruler];
  if (inTop === inLeft) return;
  const guides = job.faces[face].guides ?? [];
  const crossing = guides.findIndex(({ along, at }) => {
    const p = toScreen(
      useStudio.getState().view,
      width,
      height,
      along === 's' ? at : 0,
      along === 's' ? 0 : at,
    );
    return inTop
      ? along === 's' && Math.abs(p.x - from.x) <= REACH
      : along === 't' && Math.abs(p.y - from.y) <= REACH;
  });
  const along = crossing >= 0 ? guides[crossing]!.along : inLeft ? 's' : 't';
  const index = crossing >= 0 ? crossing : guides.length;
  const squash = `guide ${index} ${performance.now()}`;
  const label = crossing >= 0 ? 'Move a guide' : 'Place a guide';
  let there = crossing >= 0;
  e.preventDefault();
  e.stopPropagation();
  const move = (p: globalThis.PointerEvent) => {
    const { x, y } = place(p);
    const { s, t } = toSurfacePoint(useStudio.getState().view, width, height, x, y);
    const back = along === 's' ? x < ruler : y < ruler;
    if (back && !there) return;
    edit(
      label,
      (j) =>
        changeGuide(j, face, there ? index : null, back ? null : { along, at: tenth(along === 's' ? s : t) }),
      squash,
    );
    there = !back;
  };
  const end = () => {
    window.removeEventListener('pointermove', move);
    sealEdits();
  };
  window.addEventListener('pointermove', move);
  window.addEventListener('pointerup', end, { once: true });
  window.addEventListener('pointercancel', end, { once: true });
}
