export { deflate } from './deflate.ts';
export { canWriteAll, nodeFiles } from './fileStore.ts';
export { backupOf, MOST_JOB_BYTES, writeJobFile } from './jobFile.ts';
export { type JobLock, lockJob } from './jobLock.ts';
export { sweepLeftovers } from './leftovers.ts';
export { sharpCodec } from './sharpCodec.ts';
export { defaultWorkers, Stopped, workerPool } from './workerPool.ts';
