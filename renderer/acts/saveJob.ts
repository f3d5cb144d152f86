import type { Job } from '../../core/job/index.ts';
import { studioTrouble } from '../../core/sentences/index.ts';
import { done, type Failure, type Outcome } from '../../core/units/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { filer } from '../workers/index.ts';
import { isKept, noteKept } from './lastPage.ts';
import { shell } from './shell.ts';

/** The open job as one file's bytes. */
export async function packedJob(job: Job): Promise<Outcome<Uint8Array>> {
  try {
    return done(await filer.pack(job, useStudio.getState().extra));
  } catch (error) {
    return studioTrouble.bug(error instanceof Error ? error.message : String(error));
  }
}

const tellTrouble = ({ reason, mend }: Failure) => tell('trouble', reason, mend);

/** Saves to the file the job came from, or asks where. */
export async function saveJob(asNew = false): Promise<void> {
  const { job, handle, fileName } = useStudio.getState();
  if (!job) return;
  const packed = await packedJob(job);
  if (!packed.ok) return tellTrouble(packed);
  const name = fileName || job.name;
  const saved = await shell().saveJob(packed.value, name, asNew ? null : handle);
  if (!saved.ok) {
    if (saved.kind !== 'cancelled') tellTrouble(saved);
    return;
  }
  useStudio.setState({ saved: job, fileName: saved.value.name, handle: saved.value.handle });
  // An edit made while the file was written is unsaved work, and stays kept.
  if (useStudio.getState().job === job) {
    await shell().autosave(null, name);
    noteKept(false);
  }
  tell('done', `Saved as ${saved.value.name}.`);
}

/** Milliseconds of quiet after an edit before unsaved work is kept; an edit is safe within two seconds. */
const QUIET = 1200;

/** Keeps unsaved work as it changes. Returns what stops it. */
export function keepUnsavedWork(): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Told once, until it is kept again. */
  let told = false;
  const keep = async () => {
    const { job, saved, fileName } = useStudio.getState();
    if (!job || job === saved) return;
    const packed = await packedJob(job);
    // Saved or closed meanwhile: there is nothing to lose.
    const now = useStudio.getState();
    if (now.job === now.saved || !now.job) return;
    const kept = packed.ok ? await shell().autosave(packed.value, fileName || job.name) : packed;
    if (kept.ok) noteKept(true);
    else if (!told) tellTrouble(studioTrouble.notKept(kept.reason));
    told = !kept.ok;
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
