import { type PointerEvent, useRef } from 'react';
import { toScreen, useStudio } from '../state/index.ts';
import { faceShape } from './faceShape.ts';

/** A wire across the deck: the art as drawn on its tail side, what is printed on its nose side. Drag it, or use the arrow keys. */
export function Divider({ width, height }: { readonly width: number; readonly height: number }) {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const view = useStudio((s) => s.view);
  const share = useStudio((s) => s.divider)!;
  const held = useRef(false);
  const { box } = faceShape(job, face);
  const x = toScreen(view, width, height, box.x + box.width * share, 0).x;
  const top = toScreen(view, width, height, 0, box.y + box.height).y;
  const bottom = toScreen(view, width, height, 0, box.y).y;
  const put = (to: number) => useStudio.setState({ divider: Math.min(1, Math.max(0, to)) });
  const drag = (e: PointerEvent<HTMLElement>) => {
    if (!held.current) return;
    const left = e.currentTarget.parentElement!.getBoundingClientRect().left;
    const from = toScreen(view, width, height, box.x, 0).x;
    put((e.clientX - left - from) / (box.width * view.scale));
  };
  return (
    <div
      className="divider"
      style={{ left: x, top: top - 26, height: bottom - top + 52 }}
      role="slider"
      tabIndex={0}
      aria-label="Art as drawn against what is printed"
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(share * 100)}
      aria-valuetext={`${Math.round(share * 100)} % of the deck as drawn`}
      onPointerDown={(e) => {
        held.current = true;
        e.currentTarget.setPointerCapture(e.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={() => {
        held.current = false;
      }}
      onKeyDown={(e) => {
        const step = e.shiftKey ? 0.1 : 0.01;
        const to = { ArrowLeft: share - step, ArrowRight: share + step, Home: 0, End: 1 }[e.key];
        if (to === undefined) return;
        e.preventDefault();
        e.stopPropagation();
        put(to);
      }}
    >
      <span>as drawn</span>
      <span>printed</span>
    </div>
  );
}
