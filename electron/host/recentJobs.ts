import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import { writeWhole } from './wholeFile.ts';

const RecentSchema = z
  .array(z.object({ path: z.string().min(1).max(4096), when: z.string().max(40) }))
  .max(100);
export type Recent = z.infer<typeof RecentSchema>[number];

/** As many as a person looks through. */
const MOST = 12;

/** The jobs opened or saved last, newest first. A list that can not be read counts as empty; one not written is no loss. */
export function recentJobs(dir: string) {
  const path = join(dir, 'recent.json');
  async function list(): Promise<readonly Recent[]> {
    try {
      return RecentSchema.parse(JSON.parse(await readFile(path, 'utf8')));
    } catch {
      return [];
    }
  }
  return {
    list,
    async add(job: string, when: string): Promise<void> {
      const others = (await list()).filter((recent) => recent.path !== job);
      const next = [{ path: job, when }, ...others].slice(0, MOST);
      try {
        await mkdir(dir, { recursive: true });
        await writeWhole(path, Buffer.from(`${JSON.stringify(next, null, 1)}\n`));
      } catch {
        // Nothing of the user's is lost with it.
      }
    },
  };
}
