/**
 * An expected failure is a value: what went wrong in one sentence, and what to do about it in another.
 * `kind` decides the exit status on the command line: `input` is 2, `file` is 3.
 */
export type Failure = {
  readonly ok: false;
  readonly kind: 'input' | 'file' | 'cancelled';
  /** One sentence: what was expected and what came. */
  readonly reason: string;
  /** One sentence: how to mend it. */
  readonly mend: string;
};

/** What a sentence is completed with; lengths and counts come as they are to be read. */
export type Said = string | number;

export const badInput = (reason: string, mend: string): Failure => ({
  ok: false,
  kind: 'input',
  reason,
  mend,
});
export const fileTrouble = (reason: string, mend: string): Failure => ({
  ok: false,
  kind: 'file',
  reason,
  mend,
});
export const cancelled = (): Failure => ({
  ok: false,
  kind: 'cancelled',
  reason: 'Stopped before it was finished.',
  mend: 'Nothing was written; start it again when you like.',
});

/** The same failure, told of one place: an option, a part of a file. */
export const failureAt = (place: string, failure: Failure): Failure => ({
  ...failure,
  reason: `${place}: ${failure.reason}`,
});
