import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { pxPerMm } from '../../core/units/index.ts';
import { glassOf, glassRequest } from '../acts/index.ts';
import { formatLength, toScreen, toSurfacePoint, useStudio } from '../state/index.ts';
import { type GlassPicture, type GlassRequest, latestWins } from '../workers/index.ts';

/** CSS pixels across the glass, and a side of one film dot in it. */
const ACROSS = 232;
const DOT = 3;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/**
 * A round glass over the board that shows the films' own dots where it lies. It follows the pointer; by keyboard the
 * arrow keys move it by 1 mm, with Shift by 10, with Alt by 0.1.
 */
export function Loupe({ width, height }: { readonly width: number; readonly height: number }) {
  const at = useStudio((s) => s.loupe)!;
  const view = useStudio((s) => s.view);
  const units = useStudio((s) => s.job!.units);
  const dpi = useStudio((s) => s.job!.printer.dpi);
  const state = useStudio();
  const canvas = useRef<HTMLCanvasElement>(null);
  const [seen, setSeen] = useState<GlassPicture | null>(null);
  const [trouble, setTrouble] = useState('');
  const look = useRef<((request: GlassRequest) => void) | null>(null);
  look.current ??= latestWins(
    async (request: GlassRequest) => (await glassOf(useStudio.getState())).look(request),
    (made) => {
      setTrouble(made.ok ? '' : made.reason);
      if (made.ok) setSeen(made.value);
    },
    (error) => {
      console.error(error);
      setTrouble('The glass can not look here.');
    },
  );
  const { job, face, station, filmView, inkId, veneerId, colourwayId, moved } = state;
  const side = ACROSS / DOT / pxPerMm(dpi);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what the request is made of is listed
  useEffect(() => {
    const request = glassRequest(useStudio.getState());
    if (!request) setTrouble('Nothing is printed yet.');
    else {
      const window = { x: at.s - side / 2, y: at.t - side / 2, width: side, height: side };
      look.current?.({ ...request, window });
    }
  }, [at, side, job, face, station, filmView, inkId, veneerId, colourwayId, moved]);

  useEffect(() => {
    const el = canvas.current;
    if (!el) return;
    const ratio = window.devicePixelRatio || 1;
    el.width = Math.round(ACROSS * ratio);
    el.height = Math.round(ACROSS * ratio);
    const ctx = el.getContext('2d')!;
    ctx.imageSmoothingEnabled = false;
    ctx.clearRect(0, 0, el.width, el.height);
    if (!seen) return;
    const k = el.width / side;
    const { box, picture } = seen;
    ctx.drawImage(
      picture,
      (box.x - (at.s - side / 2)) * k,
      (at.t + side / 2 - (box.y + box.height)) * k,
      box.width * k,
      box.height * k,
    );
  }, [seen, at, side]);

  const place = toScreen(view, width, height, at.s, at.t);
  const keys = (e: KeyboardEvent) => {
    const arrow = ARROWS[e.key];
    if (e.key === 'Escape') useStudio.setState({ loupe: null });
    if (!arrow) return;
    e.preventDefault();
    e.stopPropagation();
    const step = e.altKey ? 0.1 : e.shiftKey ? 10 : 1;
    useStudio.setState({ loupe: { s: at.s + arrow[0] * step, t: at.t + arrow[1] * step } });
  };
  return (
    <div
      className="loupe"
      style={{ left: place.x - ACROSS / 2, top: place.y - ACROSS / 2, width: ACROSS, height: ACROSS }}
      role="application"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the glass is moved by keyboard
      tabIndex={0}
      aria-label={`Loupe at ${formatLength(at.s, units)} along, ${formatLength(at.t, units)} across: ${dpi} dots an inch. Arrow keys move it.`}
      onKeyDown={keys}
    >
      <canvas ref={canvas} />
      <span className="loupe-words">
        {trouble || (seen ? `${formatLength(side, units, 2)} across` : 'looking…')}
      </span>
    </div>
  );
}

/** Moves the glass under the pointer, if there is one. */
export function moveLoupe(frame: HTMLElement, clientX: number, clientY: number): void {
  const { loupe, view } = useStudio.getState();
  if (!loupe) return;
  const r = frame.getBoundingClientRect();
  const { s, t } = toSurfacePoint(view, r.width, r.height, clientX - r.left, clientY - r.top);
  useStudio.setState({ loupe: { s, t } });
}

/** Takes the glass up in the middle of the view, or lays it down. */
export function takeLoupe(): void {
  const { loupe, view } = useStudio.getState();
  useStudio.setState({ loupe: loupe ? null : { s: view.s, t: view.t } });
}
