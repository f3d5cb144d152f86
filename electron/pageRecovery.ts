import type { BrowserWindow, Dialog } from 'electron';

/** A page that stops twice within this time, ms, would likely stop again: the user then decides. */
const AGAIN_MS = 60_000;

const KEPT = 'What you did was kept until a moment ago; the page offers it again when it is back.';

/**
 * Brings a page back that died or hangs. One that dies is loaded again by itself; one that dies again soon, or does not
 * answer, only when the user says so. Unsaved work lies with the program, not in the page.
 */
export function watchPage(
  window: BrowserWindow,
  dialog: Pick<Dialog, 'showMessageBox'>,
  now: () => number = Date.now,
): void {
  const { webContents } = window;
  let last = Number.NEGATIVE_INFINITY;
  /** The user asked for the end of a page that hangs. */
  let wanted = false;
  let asking: AbortController | null = null;

  async function ask(message: string, buttons: readonly [string, string]): Promise<boolean> {
    if (asking) return false;
    asking = new AbortController();
    try {
      const { response } = await dialog.showMessageBox(window, {
        type: 'warning',
        message,
        detail: KEPT,
        buttons: [...buttons],
        defaultId: 0,
        cancelId: 0,
        signal: asking.signal,
      });
      return response === 1 && !asking.signal.aborted && !window.isDestroyed();
    } finally {
      asking = null;
    }
  }

  webContents.on('render-process-gone', async (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    asking?.abort();
    const soon = now() - last < AGAIN_MS && !wanted;
    last = now();
    wanted = false;
    if (!soon) webContents.reload();
    else if (await ask('The window stopped twice in a short time.', ['Leave it', 'Start it again']))
      webContents.reload();
  });
  window.on('unresponsive', async () => {
    if (!(await ask('The window does not answer.', ['Wait', 'Start it again']))) return;
    wanted = true;
    webContents.forcefullyCrashRenderer();
  });
  window.on('responsive', () => asking?.abort());
}
