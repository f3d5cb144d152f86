export type { Calculation } from './calculation.ts';
export { CAUTIONS, cautionsFor, DEFER, type Work } from './cautions.ts';
export { blanksFor, type CountInput, countRun, type RunCount } from './count.ts';
export { type Drawing, type DrawnItem, drawing, LAYERS, type Layer } from './drawing.ts';
export { drawingDxf } from './drawingDxf.ts';
export { drawingSvg } from './drawingSvg.ts';
export { type EmulsionInput, emulsionAmount } from './emulsion.ts';
export { type Exposure, type ExposureInput, exposureTime, tabletFactor } from './exposure.ts';
export { type BurnedScreen, type ExposureHistory, exposureHistory, isAlike } from './exposureLog.ts';
export type { FilmMeasure } from './filmMeasure.ts';
export { type FineMap, fineMap } from './fineMap.ts';
export { type FinestFeatures, finestFeatures, type ThinPlace, thinPlaces } from './finestFeatures.ts';
export { type FrameInput, innerFrame } from './frame.ts';
export { type GrowthInput, type MeshGrowth, meshGrowth } from './growth.ts';
export { type InkAmount, type InkAmountInput, inkAmount } from './inkAmount.ts';
export { clampPlaces, type JigInput, jigDrawing, USUAL_FRAME_BAR } from './jig.ts';
export { type Mesh, type MeshFigures, meshFigures } from './mesh.ts';
export {
  adviseMesh,
  type InkKind,
  type JudgedMesh,
  type MeshAdvice,
  type MeshAdviceInput,
} from './meshAdvice.ts';
export { MESH_TABLE, type MeshRow, meshOfCount } from './meshTable.ts';
export { type Beat, beatsOf, type Moire, type MoireInput, moire } from './moire.ts';
export { moirePicture } from './moirePicture.ts';
export { clockOf, type PlanDay, planScale, WEEKDAYS } from './planScale.ts';
export { type EndReach, type Reach, type ReachInput, reach } from './reach.ts';
export {
  type ClampMove,
  type RegisterCorrection,
  type RegisterInput,
  type ResidualMeaning,
  registerCorrection,
} from './registerCorrection.ts';
export { type MarkMean, meanReadings, type RegisterReading } from './registerReading.ts';
export { type Fit, fitPairs, moveBy } from './rigidFit.ts';
export {
  type PlannedTask,
  planRun,
  type RunPlan,
  type RunPlanInput,
  runTasks,
  type TaskTimes,
  USUAL_TIMES,
} from './runPlan.ts';
export { type Schedule, schedule } from './schedule.ts';
export { type Section, sectionOf } from './section.ts';
export { type CurvedSqueegee, curvedSqueegee, type SqueegeeInput } from './squeegee.ts';
export { squeegeeDrawing } from './squeegeeDrawing.ts';
export { type StepTest, type StepTestInput, stepTest, stepTestReading } from './stepTest.ts';
export type { Placed, ScheduleInput, Task } from './task.ts';
export { USUAL, type UsualValue, usualWords } from './usual.ts';
export { type Calendar, makeCalendar, USUAL_HOURS, type WorkingHours } from './workingHours.ts';
