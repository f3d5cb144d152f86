import * as Comlink from 'comlink';
import { useEffect, useMemo, useState } from 'react';
import type { Calculation, RunPlan, RunPlanInput } from '../../core/press/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import type { PlanWorker } from './planWorker.ts';

let worker: Comlink.Remote<PlanWorker> | null = null;
const planner = () => {
  worker ??= Comlink.wrap<PlanWorker>(
    new Worker(new URL('./planWorker.ts', import.meta.url), { type: 'module' }),
  );
  return worker;
};

/** The schedule for an input, worked out off the window's thread; null until the first one is there. */
export function usePlan(input: RunPlanInput): Outcome<Calculation<RunPlan>> | null {
  const key = JSON.stringify(input);
  const [plan, setPlan] = useState<Outcome<Calculation<RunPlan>> | null>(null);
  const wanted = useMemo(() => JSON.parse(key) as RunPlanInput, [key]);
  useEffect(() => {
    let live = true;
    // A running hand waits; the last input wins.
    const wait = setTimeout(async () => {
      const made = await planner().plan(wanted);
      if (live) setPlan(made);
    }, 120);
    return () => {
      live = false;
      clearTimeout(wait);
    };
  }, [wanted]);
  return plan;
}
