import { useState } from 'react';

/**
 * What stands in a box that is typed into: the draft while one is typed, else what is held.
 * The two are never copied into each other: a copy made by an effect comes a moment late,
 * and a box left in that moment would hand the old text on.
 */
export function useDraft(held: string) {
  const [draft, setDraft] = useState<string | null>(null);
  const text = draft ?? held;
  return {
    text,
    /** Whether something else is typed than what is held. */
    changed: text !== held,
    type: (typed: string) => setDraft(typed),
    /** Shows what is held again. */
    drop: () => setDraft(null),
  };
}
