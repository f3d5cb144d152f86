import { done, type Outcome } from '../units/index.ts';
import type { FaceLayout } from './faceLayout.ts';
import { planFace } from './facePlan.ts';
import type { LayOutRequest } from './layOutRequest.ts';

/** Marks, sheets, seams and page places of all films of one face, in one go; see `planFace`. */
export function layOutFace(request: LayOutRequest): Outcome<FaceLayout> {
  const plan = planFace(request);
  return plan.ok ? done(plan.value.layOut(request.options?.boundaries)) : plan;
}
