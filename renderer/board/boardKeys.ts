import type { KeyboardEvent } from 'react';
import { changeArt, edit, sealEdits, useStudio } from '../state/index.ts';
import { handKeys } from './handGestures.ts';
import { takeLoupe } from './Loupe.tsx';

let pause: ReturnType<typeof setTimeout> | undefined;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Keys on the board: arrows nudge selected art by 1 mm (Shift 10, Alt 0.1) or pan; plus, minus and 0 zoom. */
export function boardKeys(event: KeyboardEvent, zoom: (factor: number) => void): void {
  if (event.ctrlKey || event.metaKey) return;
  const { view, selection, station, face } = useStudio.getState();
  if (handKeys(event)) return;
  const arrow = ARROWS[event.key];
  if (arrow) {
    event.preventDefault();
    if (station === 'art' && selection.length > 0) {
      const step = event.altKey ? 0.1 : event.shiftKey ? 10 : 1;
      edit(
        'Nudge art',
        (job) =>
          job.faces[face].art
            .filter((a) => selection.includes(a.id))
            .reduce(
              (j, a) => changeArt(j, face, a.id, { x: a.x + arrow[0] * step, y: a.y + arrow[1] * step }),
              job,
            ),
        `nudge ${selection.join(' ')}`,
      );
      clearTimeout(pause);
      pause = setTimeout(sealEdits, 700);
      return;
    }
    const step = (event.shiftKey ? 200 : 50) / view.scale;
    useStudio.setState({
      fitted: false,
      view: { ...view, s: view.s + arrow[0] * step, t: view.t + arrow[1] * step },
    });
  } else if (event.key === '+' || event.key === '=') zoom(1.25);
  else if (event.key === '-') zoom(1 / 1.25);
  else if (event.key === 'l' || event.key === 'L') takeLoupe();
  else if (event.key === '0') useStudio.setState({ fitted: true });
}
