import * as Comlink from 'comlink';
import { planRun, type RunPlanInput } from '../../core/press/index.ts';

const api = { plan: (input: RunPlanInput) => planRun(input) };

export type PlanWorker = typeof api;
Comlink.expose(api);
