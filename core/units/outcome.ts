import type { Failure } from '../sentences/index.ts';

export type Outcome<T> = { readonly ok: true; readonly value: T } | Failure;

export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });
