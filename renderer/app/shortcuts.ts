import { copyOut, openJob, saveJob } from '../acts/index.ts';
import { copyPieces, duplicatePieces, pastePieces } from '../art/index.ts';
import { edit, redo, removeArt, STATIONS, undo, useStudio } from '../state/index.ts';

/** What the clipboard says while pieces are held for a paste here. */
const COPIED = 'Kickflat art';

const inField = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName)) &&
  (target as HTMLInputElement).type !== 'radio' &&
  (target as HTMLInputElement).type !== 'range';

/** The platform's own shortcuts, and Alt with 1 to 7 for the stations. Returns what takes them away. */
export function shortcuts(): () => void {
  const down = (e: KeyboardEvent) => {
    const { job, station, selection, face } = useStudio.getState();
    const command = e.ctrlKey || e.metaKey;
    const key = e.key.toLowerCase();
    const act = (what: () => void) => {
      e.preventDefault();
      what();
    };
    if (command && key === 'o') return act(() => void openJob());
    if (!job) return;
    if (command && key === 's') return act(() => void saveJob(e.shiftKey));
    if (command && key === 'z' && !inField(e.target)) return act(e.shiftKey ? redo : undo);
    if (command && key === 'y' && !inField(e.target)) return act(redo);
    if (e.altKey && /^[1-7]$/.test(e.key))
      return act(() => useStudio.setState({ station: STATIONS[Number(e.key) - 1]!, pointer: null }));
    if (inField(e.target)) return;
    if ((e.key === 'Delete' || e.key === 'Backspace') && station === 'art' && selection.length > 0)
      return act(() => {
        edit(selection.length === 1 ? 'Remove art' : `Remove ${selection.length} pieces`, (j) =>
          removeArt(j, face, selection),
        );
        useStudio.setState({ selection: [] });
      });
    if (command && key === 'd' && station === 'art' && selection.length > 0)
      return act(() => duplicatePieces(selection));
    if (command && key === 'a' && station === 'art')
      return act(() => useStudio.setState({ selection: job.faces[face].art.map((a) => a.id) }));
    if (e.key === 'Escape') useStudio.setState({ selection: [], pointer: null });
  };
  // The system's own copy and paste events: what another program put on its clipboard goes before pieces held here.
  const copy = (e: ClipboardEvent) => {
    const { job, face, station, selection } = useStudio.getState();
    if (inField(e.target) || station !== 'art' || !copyPieces(selection)) return;
    e.preventDefault();
    // What was on the system's clipboard gives way, as with any copy.
    e.clipboardData?.setData('text/plain', COPIED);
    const [only, ...more] = job?.faces[face].art.filter((a) => selection.includes(a.id)) ?? [];
    if (only && more.length === 0) void copyOut(only, COPIED);
  };
  const paste = (e: ClipboardEvent) => {
    if (inField(e.target) || useStudio.getState().station !== 'art') return;
    if (e.clipboardData?.getData('text/plain') !== COPIED) return;
    e.preventDefault();
    // The picture beside it is for other programs.
    e.stopImmediatePropagation();
    pastePieces();
  };
  window.addEventListener('keydown', down);
  window.addEventListener('copy', copy);
  window.addEventListener('paste', paste, { capture: true });
  return () => {
    window.removeEventListener('keydown', down);
    window.removeEventListener('copy', copy);
    window.removeEventListener('paste', paste, { capture: true });
  };
}
