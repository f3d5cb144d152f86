import { type RefObject, useLayoutEffect } from 'react';

/** Height of one row of the bench's grid and least room beneath what lies on it, CSS pixels at the usual size of type. */
const ROW = 4;
const GAP = 18;

/** Gives an element on the bench as many of its low rows as it is high, whatever happens inside it. */
export function useRows(element: RefObject<HTMLElement | null>): void {
  useLayoutEffect(() => {
    const at = element.current;
    if (!at) return;
    const measure = () => {
      const gap = GAP * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16);
      at.style.gridRowEnd = `span ${Math.ceil((at.offsetHeight + gap) / ROW)}`;
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(at);
    return () => watch.disconnect();
  }, [element]);
}
