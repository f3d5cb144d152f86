import { type RefObject, useEffect, useRef } from 'react';
import type { Art } from '../../core/job/index.ts';
import {
  changeArt,
  edit,
  type StudioState,
  sealEdits,
  toSurfacePoint,
  useStudio,
  withGroups,
  zoomedAt,
} from '../state/index.ts';
import { ArtHandles } from './artHandles.ts';
import { cropped } from './cropped.ts';
import type { SnapLine } from './drawGuides.ts';
import { faceShape } from './faceShape.ts';
import { handDown, handMove, handUp } from './handGestures.ts';
import { paintAbove, paintBelow, readColours } from './paint.ts';
import type { BoardColours } from './pen.ts';
import { snap } from './snapping.ts';

const set = useStudio.setState;
const get = useStudio.getState;

/** CSS pixels within which dragged art snaps. */
const SNAP_PX = 7;

const GESTURES: Readonly<Record<string, string>> = {
  drag: 'Move art',
  rotate: 'Turn art',
  scale: 'Scale art',
  scaleX: 'Stretch art',
  scaleY: 'Stretch art',
};

/** Ties the canvas to the document: draws it, and makes edits of what a hand does on it. */
export function useFabricBoard(
  element: RefObject<HTMLCanvasElement | null>,
  size: { width: number; height: number },
): void {
  const board = useRef<ArtHandles | null>(null);
  const sizeRef = useRef(size);
  sizeRef.current = size;

  useEffect(() => {
    if (!element.current) return;
    let colours: BoardColours = readColours();
    let lines: readonly SnapLine[] = [];
    const handles = new ArtHandles(element.current, () => colours.accent);
    const { canvas } = handles;
    board.current = handles;

    const pen = (ctx: CanvasRenderingContext2D) => ({ ctx, ...sizeRef.current, view: get().view, colours });
    canvas.on('before:render', ({ ctx }) => paintBelow(pen(ctx), get()));
    canvas.on('after:render', ({ ctx }) => {
      if (ctx === canvas.getContext()) paintAbove(pen(ctx), get(), lines);
    });

    const place = () => {
      const { scale, s, t } = get().view;
      const { width, height } = sizeRef.current;
      canvas.setViewportTransform([scale, 0, 0, scale, width / 2 - s * scale, height / 2 + t * scale]);
    };
    const sync = (state: StudioState) => {
      const art = state.job?.faces[state.face].art ?? [];
      handles.sync(art, state.selection, state.station === 'art');
    };
    place();
    sync(get());

    const recolour = () => {
      colours = readColours();
      canvas.requestRenderAll();
    };
    const stop = useStudio.subscribe((now, before) => {
      if (now.view !== before.view) place();
      if (now.shop.bench?.theme !== before.shop.bench?.theme) requestAnimationFrame(recolour);
      if (
        now.job !== before.job ||
        now.face !== before.face ||
        now.selection !== before.selection ||
        now.station !== before.station
      )
        sync(now);
      canvas.requestRenderAll();
    });
    const scheme = window.matchMedia('(prefers-color-scheme: dark)');
    // The page wears its new colours first.
    const schemeChanged = () => requestAnimationFrame(recolour);
    scheme.addEventListener('change', schemeChanged);
    window.addEventListener('resize', schemeChanged);
    void document.fonts.ready.then(() => canvas.requestRenderAll());

    // The one piece under the handles as it was when the hand took hold of it.
    let before: Art | null = null;
    canvas.on('before:transform', () => {
      const { job, face, selection } = get();
      const [only, ...more] = job?.faces[face].art.filter((a) => selection.includes(a.id)) ?? [];
      before = only && more.length === 0 ? only : null;
    });
    const readBack = (action: string) => {
      const { face, cropping } = get();
      const crops = cropping && before && action.startsWith('scale');
      const placed = crops ? cropped(before!, handles.placed()) : handles.placed();
      if (!get().dragging) set({ dragging: true });
      edit(
        crops ? 'Crop art' : (GESTURES[action] ?? 'Place art'),
        (job) => [...placed].reduce((j, [id, change]) => changeArt(j, face, id, change), job),
        `hand ${[...placed.keys()].join(' ')}`,
      );
    };
    canvas.on('object:moving', ({ e }) => {
      const { job, face, view } = get();
      const box = handles.box();
      lines = [];
      if (job && box && !(e as MouseEvent).altKey) {
        const held = snap(faceShape(job, face), box, SNAP_PX / view.scale, job.faces[face].guides);
        handles.nudge(held.ds, held.dt);
        lines = held.lines;
      }
      readBack('drag');
    });
    canvas.on('object:scaling', ({ transform }) => readBack(transform.action ?? 'scale'));
    canvas.on('object:rotating', ({ target, e }) => {
      // Quarter turns catch within two degrees, unless Alt is held.
      const near = Math.round(target.angle / 45) * 45;
      if (Math.abs(target.angle - near) < 2 && !(e as MouseEvent).altKey) target.rotate(near);
      readBack('rotate');
    });
    canvas.on('object:modified', () => {
      lines = [];
      set({ dragging: false });
      sealEdits();
      // A crop stops at the art's own edge, wherever the hand went.
      queueMicrotask(() => sync(get()));
    });
    let alone = false;
    // Shift adds to what is chosen, and with it an empty place draws a frame about pieces instead of panning.
    canvas.on('mouse:down:before', ({ e }) => {
      alone = (e as MouseEvent).altKey;
      canvas.selection = (e as MouseEvent).shiftKey && get().station === 'art';
    });
    const choose = () => {
      if (handles.busy) return;
      const { job, face } = get();
      const chosen = handles.chosen();
      // With Alt one piece of a group is taken alone.
      set({ selection: alone || !job ? chosen : withGroups(job.faces[face].art, chosen) });
    };
    canvas.on('selection:created', choose);
    canvas.on('selection:updated', choose);
    canvas.on('selection:cleared', choose);

    const spotOf = (e: PointerEvent) => {
      const at = canvas.getViewportPoint(e);
      const { width, height } = sizeRef.current;
      return toSurfacePoint(get().view, width, height, at.x, at.y);
    };
    // An empty place of the bench pans, unless a tool is in the hand.
    let pan: { x: number; y: number } | null = null;
    canvas.on('mouse:down', ({ target, e }) => {
      const event = e as PointerEvent;
      if ((target || canvas.selection) && event.button !== 1) return;
      if (event.button === 0 && handDown(spotOf(event))) return;
      pan = { x: event.clientX, y: event.clientY };
      canvas.setCursor('grabbing');
    });
    canvas.on('mouse:move', ({ e }) => {
      if (handMove(spotOf(e as PointerEvent))) canvas.setCursor('crosshair');
      if (!pan) return;
      const event = e as PointerEvent;
      const { view } = get();
      set({
        fitted: false,
        view: {
          ...view,
          s: view.s - (event.clientX - pan.x) / view.scale,
          t: view.t + (event.clientY - pan.y) / view.scale,
        },
      });
      pan = { x: event.clientX, y: event.clientY };
    });
    canvas.on('mouse:up', () => {
      handUp();
      pan = null;
    });
    canvas.on('mouse:wheel', ({ e }) => {
      e.preventDefault();
      const { view } = get();
      const { width, height } = sizeRef.current;
      const sideways = e.shiftKey || Math.abs(e.deltaX) > Math.abs(e.deltaY);
      if (sideways && !e.ctrlKey) {
        const step = (e.shiftKey && e.deltaX === 0 ? e.deltaY : e.deltaX) / view.scale;
        set({ fitted: false, view: { ...view, s: view.s + step } });
        return;
      }
      const at = canvas.getViewportPoint(e);
      const factor = Math.exp(-e.deltaY * (e.ctrlKey ? 0.01 : 0.0016));
      set({ fitted: false, view: zoomedAt(view, width, height, at.x, at.y, factor) });
    });
    return () => {
      stop();
      scheme.removeEventListener('change', schemeChanged);
      window.removeEventListener('resize', schemeChanged);
      board.current = null;
      void canvas.dispose();
    };
  }, [element]);

  useEffect(() => {
    const canvas = board.current?.canvas;
    if (!canvas || size.width === 0) return;
    canvas.setDimensions(size);
    const { scale, s, t } = get().view;
    canvas.setViewportTransform([
      scale,
      0,
      0,
      scale,
      size.width / 2 - s * scale,
      size.height / 2 + t * scale,
    ]);
    canvas.requestRenderAll();
  }, [size]);
}
