import type { Job } from '../../core/job/index.ts';

/** One change to the document, as data: its name, and the document before and after it. */
export interface Edit {
  readonly label: string;
  readonly before: Job;
  readonly after: Job;
  /** Edits that follow each other with the same key while a gesture lasts become one. */
  readonly squash: string | null;
}

export interface History {
  readonly past: readonly Edit[];
  readonly future: readonly Edit[];
  /** A gesture is going on: the next edit with the same key joins the last one. */
  readonly open: boolean;
}

/** Undo steps kept; documents share their unchanged parts, so that a step costs a few hundred bytes. */
const DEPTH = 400;

export const emptyHistory: History = { past: [], future: [], open: false };

/** The history with one edit more; whatever was undone before is forgotten. */
export function record(history: History, edit: Edit): History {
  const last = history.past.at(-1);
  if (history.open && last && edit.squash !== null && last.squash === edit.squash)
    return { ...history, past: [...history.past.slice(0, -1), { ...edit, before: last.before }], future: [] };
  return { past: [...history.past, edit].slice(-DEPTH), future: [], open: edit.squash !== null };
}

/** The gesture is over: the next edit is a step of its own. */
export const seal = (history: History): History => (history.open ? { ...history, open: false } : history);

/** The last edit taken back, or null when there is none. */
export function undone(
  history: History,
): { readonly history: History; readonly job: Job; readonly edit: Edit } | null {
  const edit = history.past.at(-1);
  if (!edit) return null;
  return {
    edit,
    job: edit.before,
    history: { past: history.past.slice(0, -1), future: [edit, ...history.future], open: false },
  };
}

/** The last undone edit made again, or null when there is none. */
export function redone(
  history: History,
): { readonly history: History; readonly job: Job; readonly edit: Edit } | null {
  const [edit, ...rest] = history.future;
  if (!edit) return null;
  return { edit, job: edit.after, history: { past: [...history.past, edit], future: rest, open: false } };
}
