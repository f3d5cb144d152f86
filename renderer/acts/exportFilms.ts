import type { Face } from '../../core/deck/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { back } from '../workers/index.ts';
import { shell } from './shell.ts';

/** Makes the films of the given faces. Progress and cancel live in the state; nothing else waits for it. */
export async function exportFilms(faces: readonly Face[], masks: boolean): Promise<void> {
  const { job, extra, exporting } = useStudio.getState();
  if (!job || exporting) return;
  const show = (done: number, text: string, cancel: () => void) =>
    useStudio.setState({ exporting: { done, text, cancel } });
  show(0, 'Packing the job', () => undefined);
  try {
    const bytes = await back.pack(job, extra);
    const run = shell().exportFilms({ job: bytes, name: job.name, faces, masks }, (done, text) => {
      if (useStudio.getState().exporting) show(done, text, run.cancel);
    });
    show(0, 'Starting', () => run.cancel());
    const made = await run.finished;
    if (made.ok) {
      const { files, folder } = made.value;
      const size = files.reduce((sum, f) => sum + f.bytes, 0) / 1e6;
      tell(
        'done',
        `Films are ready: ${files.length} files, ${size.toFixed(1)} MB${folder ? `, in ${folder}` : ', downloaded'}.`,
        'Print films.pdf at 100 % (“actual size”), then measure the 100 mm ruler on a sheet before you burn a screen.',
      );
    } else if (made.kind === 'cancelled') tell('note', 'Export stopped; nothing was written.');
    else tell('trouble', made.reason, made.mend);
  } finally {
    useStudio.setState({ exporting: null });
  }
}
