import type { Face } from '../../core/deck/index.ts';
import type { ExportedFiles, ExportRequest, LongWork } from '../../core/ports/index.ts';
import { cancelled, type Outcome } from '../../core/units/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { packedJob } from './saveJob.ts';
import { shell } from './shell.ts';

/**
 * Packs the job and runs long work of the program on it. Progress and cancel live in the state; nothing else waits for it.
 * Null when there is no job or other such work goes on.
 */
export async function onPackedJob<T>(
  start: (bytes: Uint8Array, name: string, progress: (done: number, text: string) => void) => LongWork<T>,
): Promise<Outcome<T> | null> {
  const { job, exporting } = useStudio.getState();
  if (!job || exporting) return null;
  let stopped = false;
  let cancel = () => {
    stopped = true;
  };
  const show = (done: number, text: string) =>
    useStudio.setState({ exporting: { done, text, cancel: () => cancel() } });
  show(0, 'Packing the job');
  try {
    const packed = await packedJob(job);
    if (!packed.ok) return packed;
    if (stopped) return cancelled();
    const run = start(packed.value, job.name, (done, text) => {
      if (useStudio.getState().exporting) show(done, text);
    });
    cancel = run.cancel;
    return await run.finished;
  } finally {
    useStudio.setState({ exporting: null });
  }
}

async function exportSet(
  request: Omit<ExportRequest, 'job' | 'name'>,
  ready: string,
  next: string,
): Promise<void> {
  const made = await onPackedJob<ExportedFiles>((job, name, progress) =>
    shell().exportFilms({ ...request, job, name }, progress),
  );
  if (!made) return;
  if (made.ok) {
    const { files, folder, made: handle } = made.value;
    const size = files.reduce((sum, f) => sum + f.bytes, 0) / 1e6;
    tell(
      'done',
      `${ready}: ${files.length} files, ${size.toFixed(1)} MB${folder ? `, in ${folder}` : ', downloaded'}.`,
      next,
      handle === null ? null : { handle, names: files.map((f) => f.name) },
    );
  } else tell(made.kind === 'cancelled' ? 'note' : 'trouble', made.reason, made.mend);
}

/** Opens the folder of made files in the system's own file window. */
export async function showMade(handle: string): Promise<void> {
  const shown = await shell().showMade(handle);
  if (!shown.ok) tell('trouble', shown.reason, shown.mend);
}

/** Hands the drag of a made file to the program: it can be let go on the desktop or in another window. */
export const dragOut = (handle: string, name: string): void => shell().dragOut(handle, name);

/** Makes the films of the given faces. */
export const exportFilms = (faces: readonly Face[], masks: boolean): Promise<void> =>
  exportSet(
    { faces, masks },
    'Films are ready',
    'Print films.pdf at 100 % (“actual size”), then measure the 100 mm ruler on a sheet before you burn a screen.',
  );

/** Makes the sheet the printer is measured by, and the page that proves it once it was. */
export const exportCalibration = (): Promise<void> =>
  exportSet(
    { faces: ['bottom', 'top'], masks: false, what: 'calibration' },
    'The calibration sheet is ready',
    'Print it at 100 % (“actual size”) on the film you use, let it cool, and measure from cross to cross.',
  );

/** Makes the run sheet, jig, squeegee and form, calibration sheet and step-test film. */
export const exportPress = (): Promise<void> =>
  exportSet(
    { faces: ['bottom', 'top'], masks: false, what: 'press' },
    'Press sheets are ready',
    'Print jig.pdf and squeegee.pdf at 100 % (“actual size”) and measure their 100 mm rulers before you saw.',
  );
