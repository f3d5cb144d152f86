import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { type Pixels, snapHole, type Trace } from '../../../core/deck/index.ts';
import type { Place } from './traceState.ts';

/** CSS px within which a click means the hole that is there. */
const NEAR = 12;
/** Times the loupe enlarges a point, and its side in CSS px. */
const LOUPE = 8;
const LOUPE_SIDE = 176;

const pathOf = (ring: readonly Place[]) =>
  `${ring.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('')}Z`;

interface Props {
  readonly picture: Pixels;
  readonly trace: Trace | null;
  readonly holes: readonly Place[];
  readonly wanted: number;
  readonly onHoles: (holes: readonly Place[]) => void;
}

/** The picture with the outline found in it; truck holes are clicked on it and settle on their own middles. */
export function TracePicture({ picture, trace, holes, wanted, onHoles }: Props) {
  const base = useRef<HTMLCanvasElement>(null);
  const loupe = useRef<HTMLCanvasElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const [looking, setLooking] = useState<Place | null>(null);
  useEffect(() => {
    const canvas = base.current;
    if (!canvas) return;
    canvas.width = picture.width;
    canvas.height = picture.height;
    const data = new ImageData(new Uint8ClampedArray(picture.data), picture.width);
    canvas.getContext('2d')?.putImageData(data, 0, 0);
  }, [picture]);
  useEffect(() => {
    const ctx = loupe.current?.getContext('2d');
    if (!ctx || !looking || !base.current) return;
    const span = LOUPE_SIDE / LOUPE;
    ctx.imageSmoothingEnabled = false;
    ctx.clearRect(0, 0, LOUPE_SIDE, LOUPE_SIDE);
    ctx.drawImage(
      base.current,
      looking[0] - span / 2,
      looking[1] - span / 2,
      span,
      span,
      0,
      0,
      LOUPE_SIDE,
      LOUPE_SIDE,
    );
    ctx.beginPath();
    ctx.moveTo(LOUPE_SIDE / 2, 0);
    ctx.lineTo(LOUPE_SIDE / 2, LOUPE_SIDE);
    ctx.moveTo(0, LOUPE_SIDE / 2);
    ctx.lineTo(LOUPE_SIDE, LOUPE_SIDE / 2);
    // White under red: one of them shows on any wood.
    for (const [colour, width] of [
      ['#fff', 4],
      ['#d32a12', 1.5],
    ] as const) {
      ctx.strokeStyle = colour;
      ctx.lineWidth = width;
      ctx.stroke();
    }
  }, [looking]);

  /** Picture px a CSS px. */
  const scale = () => picture.width / (frame.current?.clientWidth || picture.width);
  const placeOf = (e: PointerEvent): Place => {
    const box = frame.current!.getBoundingClientRect();
    return [
      ((e.clientX - box.left) / box.width) * picture.width,
      ((e.clientY - box.top) / box.height) * picture.height,
    ];
  };
  const settle = ([x, y]: Place): Place =>
    snapHole(picture, x, y, Math.max(8, Math.min(60, picture.width / 100))) ?? [x, y];
  const click = (e: PointerEvent) => {
    const at = placeOf(e);
    const known = holes.findIndex((h) => Math.hypot(h[0] - at[0], h[1] - at[1]) < NEAR * scale());
    if (known >= 0) onHoles(holes.filter((_, i) => i !== known));
    else if (holes.length < wanted) onHoles([...holes, settle(at)]);
  };
  const nudge = (i: number, e: KeyboardEvent) => {
    const by = e.shiftKey ? 10 : 0.5;
    const [dx, dy] = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[
      e.key
    ] ?? [0, 0];
    const hole = holes[i]!;
    if (dx || dy) {
      e.preventDefault();
      const next: Place = [hole[0] + dx!, hole[1] + dy!];
      onHoles(holes.map((h, k) => (k === i ? next : h)));
      setLooking(next);
    } else if (e.key === 'Delete' || e.key === 'Backspace') {
      e.preventDefault();
      onHoles(holes.filter((_, k) => k !== i));
    }
  };
  const percent = (n: number, of: number) => `${(n / of) * 100}%`;
  return (
    <div className="trace-view">
      <div className="trace-fit">
        <div
          ref={frame}
          className="trace-picture"
          style={{
            width: `min(100cqw, ${(100 * picture.width) / picture.height}cqh)`,
            aspectRatio: `${picture.width} / ${picture.height}`,
          }}
          onPointerMove={(e) => setLooking(placeOf(e))}
          onPointerLeave={() => setLooking(null)}
          onPointerDown={(e) => {
            if (e.button === 0 && !(e.target as Element).closest('button')) click(e);
          }}
        >
          <canvas ref={base} role="img" aria-label="The picture being traced" />
          <svg viewBox={`0 0 ${picture.width} ${picture.height}`} aria-hidden="true">
            {trace && (
              <>
                <path d={pathOf(trace.ring)} className="trace-line-under" />
                <path d={pathOf(trace.ring)} className="trace-line" />
              </>
            )}
          </svg>
          {holes.map(([x, y], i) => (
            <button
              // biome-ignore lint/suspicious/noArrayIndexKey: a nudged hole keeps its button and so its focus.
              key={i}
              type="button"
              className="trace-hole"
              style={{ left: percent(x, picture.width), top: percent(y, picture.height) }}
              aria-label={`Truck hole ${i + 1}: arrow keys move it, Delete takes it away`}
              onKeyDown={(e) => nudge(i, e)}
              onFocus={() => setLooking([x, y])}
              onClick={(e) => {
                // A click with the pointer takes it away; Enter does nothing.
                if (e.detail > 0) onHoles(holes.filter((_, k) => k !== i));
              }}
            >
              {i + 1}
            </button>
          ))}
        </div>
      </div>
      <div className="trace-under">
        <canvas
          ref={loupe}
          className="trace-loupe"
          width={LOUPE_SIDE}
          height={LOUPE_SIDE}
          hidden={!looking}
          role="img"
          aria-label="What lies under the pointer, enlarged"
        />
        <p className="hint">
          Click the middle of each truck hole, in any order; a click settles on its hole. Click a hole again
          to take it away.
        </p>
        <button
          type="button"
          disabled={holes.length >= wanted}
          onClick={() => onHoles([...holes, [picture.width / 2, picture.height / 2]])}
        >
          Add a hole in the middle
        </button>
      </div>
    </div>
  );
}
