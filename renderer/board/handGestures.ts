import type { KeyboardEvent } from 'react';
import { finishStroke, pickColour, takeTool } from '../acts/index.ts';
import { type HandTool, NO_STROKE, useStudio } from '../state/index.ts';

const set = useStudio.setState;
const get = useStudio.getState;

type Spot = { readonly s: number; readonly t: number };

/** What the board says of its keys while a tool is in the hand. */
export const HAND_WORDS: Readonly<Record<HandTool['kind'], string>> = {
  pick: 'Picking a colour: arrow keys move the cross, Enter picks, Escape puts the tool down.',
  lasso:
    'Drawing round a region: arrow keys move the cross, Space sets a corner, Enter closes it, Escape stops.',
  brush: 'Brushing: arrow keys move the cross, Space lowers and lifts the brush, Escape stops.',
};

/** The tool in the hand, where it works; null elsewhere. */
const held = (): HandTool | null => {
  const { station, hand, job } = get();
  return station === 'inks' && job ? hand : null;
};

/** A press on the board. True when the tool took it. */
export function handDown(at: Spot): boolean {
  const tool = held();
  if (!tool) return false;
  if (tool.kind === 'pick') pickColour(at.s, at.t);
  else set({ stroke: { points: [[at.s, at.t]], at, down: true } });
  return true;
}

/** A move over the board. True while a tool is in the hand. */
export function handMove(at: Spot): boolean {
  const tool = held();
  if (!tool) return false;
  const { stroke } = get();
  const points = stroke.down ? [...stroke.points, [at.s, at.t] as const] : stroke.points;
  set({ stroke: { ...stroke, points, at } });
  return true;
}

/** The press is over: what was drawn becomes a region. */
export function handUp(): void {
  if (held() && get().stroke.down) finishStroke();
}

const KEYS: Readonly<Record<string, HandTool['kind']>> = { p: 'pick', r: 'lasso', b: 'brush' };
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Keys on the board at the Inks station. True when a tool took the key. Steps of the cross: 1 mm, Shift 10, Alt 0.1. */
export function handKeys(event: KeyboardEvent): boolean {
  const { station, view, stroke, job } = get();
  if (station !== 'inks' || !job) return false;
  const kind = KEYS[event.key.toLowerCase()];
  if (kind && !event.altKey) {
    event.preventDefault();
    takeTool(kind);
    return true;
  }
  const tool = held();
  if (!tool) return false;
  const at = stroke.at ?? { s: view.s, t: view.t };
  const take = (what: () => void) => {
    event.preventDefault();
    event.stopPropagation();
    what();
    return true;
  };
  const arrow = ARROWS[event.key];
  if (arrow)
    return take(() => {
      const step = event.altKey ? 0.1 : event.shiftKey ? 10 : 1;
      const to = { s: at.s + arrow[0] * step, t: at.t + arrow[1] * step };
      const brushing = tool.kind === 'brush' && stroke.points.length > 0;
      set({
        stroke: { ...stroke, at: to, points: brushing ? [...stroke.points, [to.s, to.t]] : stroke.points },
      });
    });
  switch (event.key) {
    case ' ':
      return take(() => {
        if (tool.kind === 'pick') pickColour(at.s, at.t);
        else if (tool.kind === 'brush' && stroke.points.length > 0) finishStroke();
        else set({ stroke: { ...stroke, at, points: [...stroke.points, [at.s, at.t]] } });
      });
    case 'Enter':
      return take(() => (tool.kind === 'pick' ? pickColour(at.s, at.t) : finishStroke()));
    case 'Backspace':
      return take(() => set({ stroke: { ...stroke, points: stroke.points.slice(0, -1) } }));
    case 'Escape':
      return take(() => (stroke.points.length > 0 ? set({ stroke: { ...NO_STROKE, at } }) : takeTool(null)));
    default:
      return false;
  }
}
