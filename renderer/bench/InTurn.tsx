import { Children, type ReactNode, useEffect, useState } from 'react';
import { afterPaint } from '../state/index.ts';

/** Cards that lie there in a station's first frame, about as many as are seen without scrolling, and that follow in each later one. */
const FIRST = 3;
const MORE = 2;

/** A station's cards: the first at once, the rest a few a frame, so that a full bench does not hold the deck up. */
export function InTurn({ children }: { readonly children: ReactNode }) {
  const cards = Children.toArray(children);
  const [shown, setShown] = useState(FIRST);
  const left = cards.length - shown;
  useEffect(() => {
    // Once all lie there, a card that comes later comes at once.
    if (shown < Infinity) return afterPaint(() => setShown(left > MORE ? shown + MORE : Infinity));
  }, [shown, left]);
  return cards.slice(0, shown);
}
