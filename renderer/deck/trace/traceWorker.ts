import * as Comlink from 'comlink';
import { type Pixels, type Trace, traceOutline } from '../../../core/deck/index.ts';
import { traceTrouble } from '../../../core/sentences/index.ts';
import type { Outcome } from '../../../core/units/index.ts';

let picture: Pixels | null = null;

const api = {
  /** The picture to trace in; another replaces it. */
  setPicture(next: Pixels): void {
    picture = next;
  },
  /** The deck's outline in that picture; `threshold` null: found. */
  trace(threshold: number | null): Outcome<Trace> {
    if (!picture) return traceTrouble.noPicture();
    return traceOutline(picture, { threshold });
  },
};
export type TraceWorker = typeof api;
Comlink.expose(api);
