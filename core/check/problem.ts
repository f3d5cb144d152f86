import type { Face } from '../deck/index.ts';

export type Severity = 'error' | 'warning' | 'note';

/** One thing the printer should know before burning a screen. */
export interface Problem {
  /** Which rule speaks, for programs: `art-outside`, `low-resolution` … */
  readonly code: string;
  /** error: films can't be made or won't print as drawn; warning: look at it; note: good to know. */
  readonly severity: Severity;
  readonly face: Face | null;
  /** Ink id. */
  readonly ink: string | null;
  /** Art id. */
  readonly art: string | null;
  /** One sentence: what is wrong. */
  readonly what: string;
  /** Where, in words; empty where the whole job is meant. */
  readonly where: string;
  /** A point of it on the face's surface, mm, for the deck to show. */
  readonly at: { readonly s: number; readonly t: number } | null;
  /** One sentence: what to do. */
  readonly mend: string;
}
