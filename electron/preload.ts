import { contextBridge, ipcRenderer } from 'electron';
import type { LongWork, Shell, ShellInfo } from '../core/ports/index.ts';
import type { Outcome } from '../core/units/index.ts';
import { CALL, DRAG_OUT, FILMS_PROGRESS, START_FILMS, START_MEASURE, STOP_FILMS } from './channels.ts';

/** `window.shell` in Electron: every call is a message to the program, which checks sender and arguments. */
const call = <T>(method: keyof Shell, ...args: readonly unknown[]): Promise<T> =>
  ipcRenderer.invoke(CALL, method, args) as Promise<T>;

let works = 0;

/** Starts long work with one argument, and hears how far it is. */
function longWork<T>(
  channel: string,
  given: unknown,
  onProgress: (share: number, text: string) => void,
): LongWork<T> {
  const id = ++works;
  const listen = (_event: unknown, which: number, share: number, text: string) => {
    if (which === id) onProgress(share, text);
  };
  ipcRenderer.on(FILMS_PROGRESS, listen);
  const finished = ipcRenderer.invoke(channel, id, given) as Promise<Outcome<T>>;
  return {
    finished: finished.finally(() => ipcRenderer.removeListener(FILMS_PROGRESS, listen)),
    cancel: () => ipcRenderer.send(STOP_FILMS, id),
  };
}

const shell: Shell = {
  info: () => call<ShellInfo>('info'),
  openJob: () => call('openJob'),
  openRecent: (handle) => call('openRecent', handle),
  openDemo: () => call('openDemo'),
  saveJob: (bytes, name, handle) => call('saveJob', bytes, name, handle),
  pickArt: () => call('pickArt'),
  probeArt: (bytes, name) => call('probeArt', bytes, name),
  splitArt: (bytes, name) => call('splitArt', bytes, name),
  decodeArt: (bytes, name, maxSidePx) => call('decodeArt', bytes, name, maxSidePx),
  exportFilms: (request, onProgress) => longWork(START_FILMS, request, onProgress),
  measureFilms: (job, onProgress) => longWork(START_MEASURE, job, onProgress),
  showMade: (made) => call('showMade', made),
  dragOut: (made, name) => ipcRenderer.send(DRAG_OUT, made, name),
  shop: () => call('shop'),
  keepShop: (shop) => call('keepShop', shop),
  saveText: (text, name) => call('saveText', text, name),
  autosave: (bytes, name) => call('autosave', bytes, name),
};

contextBridge.exposeInMainWorld('shell', shell);
