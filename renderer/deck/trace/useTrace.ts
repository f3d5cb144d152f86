import * as Comlink from 'comlink';
import { useEffect, useRef, useState } from 'react';
import type { Pixels, Trace } from '../../../core/deck/index.ts';
import type { Outcome } from '../../../core/units/index.ts';
import type { TraceWorker } from './traceWorker.ts';

/** The outline in a picture, found out of sight; null while it is looked for. The last threshold asked for wins. */
export function useTrace(picture: Pixels, threshold: number | null): Outcome<Trace> | null {
  const [found, setFound] = useState<Outcome<Trace> | null>(null);
  const worker = useRef<Comlink.Remote<TraceWorker> | null>(null);
  useEffect(() => {
    const thread = new Worker(new URL('./traceWorker.ts', import.meta.url), { type: 'module' });
    const own = Comlink.wrap<TraceWorker>(thread);
    worker.current = own;
    void own.setPicture(picture);
    return () => {
      worker.current = null;
      thread.terminate();
    };
  }, [picture]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another picture is traced again.
  useEffect(() => {
    let stale = false;
    setFound(null);
    // A slider's steps come faster than outlines are traced.
    const later = setTimeout(() => {
      worker.current?.trace(threshold).then((outcome) => {
        if (!stale) setFound(outcome);
      });
    }, 60);
    return () => {
      stale = true;
      clearTimeout(later);
    };
  }, [picture, threshold]);
  return found;
}
