import { isToned, screensDots } from '../job/index.ts';
import type { Abort } from '../units/index.ts';
import type { CheckInput, FaceFacts } from './input.ts';
import type { Problem, Severity } from './problem.ts';
import { EDGE_RULES, FACE_RULES, JOB_RULES } from './rules.ts';

const ORDER: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/**
 * Every problem of the job: errors first, then warnings, then notes; within each, those of the whole job, then bottom and
 * top in the order of the rules. Deterministic. Stops early, with what it has, once `abort` says so.
 */
export function checkJob(input: CheckInput, abort?: Abort): Problem[] {
  const problems = JOB_RULES.flatMap((rule) => rule(input.job));
  const faces: FaceFacts[] = [...input.faces].sort((a, b) =>
    a.face < b.face ? -1 : a.face > b.face ? 1 : 0,
  );
  for (const facts of faces)
    for (const rule of FACE_RULES) {
      if (abort?.aborted) return problems;
      const settings = input.job.faces[facts.face];
      if (EDGE_RULES.has(rule) && (isToned(settings) || screensDots(settings))) continue;
      problems.push(...rule(input.job, facts));
    }
  return problems
    .map((problem, place) => ({ problem, place }))
    .sort((a, b) => ORDER[a.problem.severity] - ORDER[b.problem.severity] || a.place - b.place)
    .map(({ problem }) => problem);
}
