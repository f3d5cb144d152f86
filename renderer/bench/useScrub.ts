import { type PointerEvent, useRef } from 'react';
import { sealEdits } from '../state/index.ts';

/** CSS pixels a hand must move before a press on a label is a drag, and those that make one step. */
const SLACK = 3;
const STEP_PX = 4;

/** Handlers for a field's label that change its value while the label is dragged sideways: one step every few pixels. */
export function useScrub(value: number, step: number, put: (value: number) => void) {
  const held = useRef<{ x: number; from: number; moved: boolean } | null>(null);
  return {
    className: 'scrub',
    onPointerDown(e: PointerEvent<HTMLLabelElement>) {
      if (e.button !== 0) return;
      e.currentTarget.setPointerCapture(e.pointerId);
      held.current = { x: e.clientX, from: value, moved: false };
    },
    onPointerMove(e: PointerEvent<HTMLLabelElement>) {
      const from = held.current;
      if (!from) return;
      const away = e.clientX - from.x;
      if (!from.moved && Math.abs(away) <= SLACK) return;
      from.moved = true;
      put(from.from + Math.round(away / STEP_PX) * step * (e.shiftKey ? 10 : 1));
    },
    onPointerUp() {
      if (held.current?.moved) sealEdits();
      held.current = null;
    },
    onPointerCancel() {
      held.current = null;
    },
  };
}
