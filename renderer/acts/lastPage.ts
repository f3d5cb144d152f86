import { useStudio } from '../state/index.ts';

const KEY = 'kickflat-page';

/** Where this tab or window was before its page was loaded again. */
export interface LastPage {
  /** Unsaved work of this page lies with the program. */
  readonly kept: boolean;
  readonly handle: string | null;
  readonly fileName: string;
  readonly station: ReturnType<typeof useStudio.getState>['station'];
  readonly face: ReturnType<typeof useStudio.getState>['face'];
}

let kept = false;

function write(): void {
  const { job, handle, fileName, station, face } = useStudio.getState();
  const page: LastPage = { kept, handle, fileName, station, face };
  if (job) sessionStorage.setItem(KEY, JSON.stringify(page));
  else sessionStorage.removeItem(KEY);
}

/** Notes whether the program now holds unsaved work of this page. */
export function noteKept(now: boolean): void {
  kept = now;
  write();
}
export const isKept = (): boolean => kept;

/** What was noted before the page was loaded again; null in a fresh tab. Read before anything is shown. */
export function lastPage(): LastPage | null {
  const text = sessionStorage.getItem(KEY);
  if (text === null) return null;
  try {
    const page = JSON.parse(text) as LastPage;
    return typeof page.fileName === 'string' ? page : null;
  } catch {
    return null;
  }
}

/** Keeps the note in step. Returns what stops it. */
export function keepPlace(): () => void {
  return useStudio.subscribe((now, before) => {
    const moved =
      now.station !== before.station ||
      now.face !== before.face ||
      now.handle !== before.handle ||
      now.fileName !== before.fileName ||
      (now.job === null) !== (before.job === null);
    if (moved) write();
  });
}
