import { type RefObject, useLayoutEffect } from 'react';

/** Height of one row of the bench's grid and least room beneath what lies on it, CSS pixels at the usual size of type. */
const ROW = 4;
const GAP = 18;

/** What waits to be measured before the next frame. */
const waiting = new Set<HTMLElement>();

/**
 * All heights are read first and all rows given after: a row given to one card makes the page lay itself out anew for the
 * next reading, and a station has a dozen cards.
 */
function measureAll(): void {
  const gap = GAP * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16);
  const rows = [...waiting].map((at) => [at, `span ${Math.ceil((at.offsetHeight + gap) / ROW)}`] as const);
  waiting.clear();
  for (const [at, span] of rows) if (at.style.gridRowEnd !== span) at.style.gridRowEnd = span;
}

const measure = (...elements: readonly Element[]) => {
  if (waiting.size === 0) queueMicrotask(measureAll);
  for (const at of elements) waiting.add(at as HTMLElement);
};

/** One for all cards; made when the first lies on the bench. */
let watch: ResizeObserver | null = null;

/** Gives an element on the bench as many of its low rows as it is high, whatever happens inside it. */
export function useRows(element: RefObject<HTMLElement | null>): void {
  useLayoutEffect(() => {
    const at = element.current;
    if (!at) return;
    watch ??= new ResizeObserver((seen) => measure(...seen.map(({ target }) => target)));
    const watching = watch;
    measure(at);
    watching.observe(at);
    return () => {
      watching.unobserve(at);
      waiting.delete(at);
    };
  }, [element]);
}
