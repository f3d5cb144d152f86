import type { JobFile } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { MOST_JOB_BYTES, unpackJobFile } from '../host/index.ts';
import type { Context } from './context.ts';

/** Reads a job file from disk. */
export async function openJobFile(context: Context, path: string): Promise<Outcome<JobFile>> {
  const bytes = await context.files.read(path, MOST_JOB_BYTES);
  if (!bytes.ok) return bytes;
  const job = unpackJobFile(bytes.value);
  return job.ok ? job : { ...job, reason: `“${path}”: ${job.reason}` };
}
