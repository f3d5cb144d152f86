import type { ShellInfo } from '../../core/ports/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { type LastPage, noteKept } from './lastPage.ts';
import { openRecent, showJob } from './openJob.ts';

/**
 * After the page was loaded again: the job is there as it was, unsaved work and all, at the same station and face, and
 * still saves to its own file. Otherwise the job the program was started with. Recovered work of a program that died is
 * left to the welcome, which offers it.
 */
export async function comeBack(info: ShellInfo, last: LastPage | null): Promise<void> {
  let there = false;
  if (last?.kept && info.recovered) {
    there = await showJob({ ...info.recovered, name: last.fileName, handle: last.handle }, true);
    if (there) {
      noteKept(true);
      tell('note', 'The page was loaded again. Your unsaved work is as it was.');
    }
  } else if (last?.handle) there = await openRecent(last.handle);
  if (there && last) useStudio.setState({ station: last.station, face: last.face });
  if (!there && info.opened) await showJob(info.opened);
}
