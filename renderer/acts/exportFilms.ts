import type { Face } from '../../core/deck/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { filer } from '../workers/index.ts';
import { shell } from './shell.ts';

const STOPPED = 'Export stopped; nothing was written.';

/** Makes the films of the given faces. Progress and cancel live in the state; nothing else waits for it. */
export async function exportFilms(faces: readonly Face[], masks: boolean): Promise<void> {
  const { job, extra, exporting } = useStudio.getState();
  if (!job || exporting) return;
  const show = (done: number, text: string, cancel: () => void) =>
    useStudio.setState({ exporting: { done, text, cancel } });
  let stopped = false;
  let cancel = () => {
    stopped = true;
  };
  const stop = () => cancel();
  show(0, 'Packing the job', stop);
  try {
    const bytes = await filer.pack(job, extra);
    if (stopped) {
      tell('note', STOPPED);
      return;
    }
    const run = shell().exportFilms({ job: bytes, name: job.name, faces, masks }, (done, text) => {
      if (useStudio.getState().exporting) show(done, text, stop);
    });
    cancel = run.cancel;
    const made = await run.finished;
    if (made.ok) {
      const { files, folder } = made.value;
      const size = files.reduce((sum, f) => sum + f.bytes, 0) / 1e6;
      tell(
        'done',
        `Films are ready: ${files.length} files, ${size.toFixed(1)} MB${folder ? `, in ${folder}` : ', downloaded'}.`,
        'Print films.pdf at 100 % (“actual size”), then measure the 100 mm ruler on a sheet before you burn a screen.',
      );
    } else if (made.kind === 'cancelled') tell('note', STOPPED);
    else tell('trouble', made.reason, made.mend);
  } finally {
    useStudio.setState({ exporting: null });
  }
}
