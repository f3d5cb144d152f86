export { TRIAL_SIDE } from './drawings.ts';
export {
  type AskAside,
  askInChild,
  BUSY_S,
  type DrawingTrial,
  type GoingOn,
  pdfAside,
  type TrialAnswer,
  trialAside,
  trialInChild,
} from './drawingTrial.ts';
export { canWriteAll, nodeFiles } from './fileStore.ts';
export { typefaceFiles } from './fontFiles.ts';
export { backupOf, MOST_JOB_BYTES, writeJobFile } from './jobFile.ts';
export { type JobLock, lockJob } from './jobLock.ts';
export { jobVersions } from './jobVersions.ts';
export { watchLateness } from './lateness.ts';
export { sweepLeftovers } from './leftovers.ts';
export { type Recent, recentJobs } from './recentJobs.ts';
export { sharpCodec } from './sharpCodec.ts';
export { type ShopFile, shopFile } from './shopFile.ts';
export { comesInLayers } from './sniff.ts';
export { stateDir } from './stateDir.ts';
export { hashOf, nodeUnpacking, unpackJobFile } from './unpackJobFile.ts';
export { type Unsaved, unsavedWork } from './unsavedWork.ts';
export { defaultWorkers, Stopped, workerPool } from './workerPool.ts';
