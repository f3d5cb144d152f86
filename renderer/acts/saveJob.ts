import { tell, useStudio } from '../state/index.ts';
import { filer } from '../workers/index.ts';
import { isKept, noteKept } from './lastPage.ts';
import { shell } from './shell.ts';

/** Saves to the file the job came from, or asks where. */
export async function saveJob(asNew = false): Promise<void> {
  const { job, extra, handle, fileName } = useStudio.getState();
  if (!job) return;
  const bytes = await filer.pack(job, extra);
  const name = fileName || job.name;
  const saved = await shell().saveJob(bytes, name, asNew ? null : handle);
  if (!saved.ok) {
    if (saved.kind !== 'cancelled') tell('trouble', saved.reason, saved.mend);
    return;
  }
  useStudio.setState({ saved: job, fileName: saved.value.name, handle: saved.value.handle });
  await shell().autosave(null, name);
  noteKept(false);
  tell('done', `Saved as ${saved.value.name}.`);
}

/** Milliseconds of quiet after an edit before unsaved work is kept; an edit is safe within two seconds. */
const QUIET = 1200;

/** Keeps unsaved work as it changes. Returns what stops it. */
export function keepUnsavedWork(): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keep = async () => {
    const { job, saved, extra, fileName } = useStudio.getState();
    if (!job || job === saved) return;
    const bytes = await filer.pack(job, extra);
    await shell().autosave(bytes, fileName || job.name);
    noteKept(true);
  };
  const stop = useStudio.subscribe((now, before) => {
    if (now.job === before.job) return;
    clearTimeout(timer);
    if (!now.job || now.job === now.saved) {
      // Saved, or given up by the user: what this page had kept is of no more use.
      if (isKept())
        void shell()
          .autosave(null, '')
          .then(
            () => noteKept(false),
            () => undefined,
          );
      return;
    }
    timer = setTimeout(() => void keep().catch(() => undefined), QUIET);
  });
  return () => {
    clearTimeout(timer);
    stop();
  };
}
