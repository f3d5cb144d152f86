import { randomBytes } from 'node:crypto';
import { basename, dirname, extname, join } from 'node:path';
import type { BrowserWindow, Dialog, IpcMain, IpcMainEvent, IpcMainInvokeEvent, NativeImage } from 'electron';
import type { ExportedFiles, ExportRequest, FileStore, PickedFile } from '../core/ports/index.ts';
import type { Shop } from '../core/shop/index.ts';
import { type Abort, cancelled, done, type Outcome, type Progress } from '../core/units/index.ts';
import { CALL, DRAG_OUT, FILMS_PROGRESS, PAGE, START_FILMS, START_MEASURE, STOP_FILMS } from './channels.ts';
import { canWriteAll } from './host/index.ts';
import { SHELL_ARGUMENTS, type ShellMethod } from './shellArguments.ts';
import type { ShellHost } from './shellHost.ts';

export interface IpcParts {
  readonly ipc: Pick<IpcMain, 'handle' | 'on'>;
  readonly dialog: Pick<Dialog, 'showOpenDialog' | 'showSaveDialog'>;
  readonly files: FileStore;
  /** Shows a file in the system's own file window. */
  readonly reveal: (path: string) => void;
  /** The system's picture for a kind of file, shown under the pointer while one is dragged out. */
  readonly pictureOf: (path: string) => Promise<NativeImage>;
  /** The window that a message came from and its host, or null for a sender that is none of ours. */
  readonly windowOf: (
    sender: IpcMainInvokeEvent['sender'],
  ) => { window: BrowserWindow; host: ShellHost } | null;
}

const JOBS = [{ name: 'Kickflat job', extensions: ['kickflat'] }];
const ART = [
  {
    name: 'Pictures and drawings',
    extensions: ['png', 'jpg', 'jpeg', 'webp', 'tif', 'tiff', 'avif', 'svg', 'ora', 'pdf'],
  },
];
const MOST_ART_BYTES = 100 * 1024 * 1024;

/** What sets of files are called in windows that ask where to put them. */
const SETS: Readonly<Record<NonNullable<ExportRequest['what']>, string>> = {
  films: 'films',
  press: 'press sheets',
  calibration: 'calibration sheet',
};
/** Work that reports how far it is, and what is not waited for, has channels of its own. */
const ELSEWHERE: ReadonlySet<string> = new Set(['exportFilms', 'measureFilms', 'dragOut']);

/** Name for a file or folder from a name the page gave: nothing that could lead elsewhere. */
const plain = (name: string) =>
  name
    .replace(/[\\/:*?"<>|\p{Cc}]+/gu, ' ')
    .replace(/^\.+/, '')
    .trim()
    .slice(0, 100) || 'job';

/** Files that were made for a page: it may show and drag these, and no others. */
interface Made {
  readonly sender: number;
  readonly dir: string;
  readonly names: ReadonlySet<string>;
  readonly picture: NativeImage | null;
}

/** Handles the messages of `preload.ts`. A message from any other frame or page, or with other arguments, is refused. */
export function handleShell({ ipc, dialog, files, reveal, pictureOf, windowOf }: IpcParts): void {
  const running = new Map<string, { aborted: boolean }>();
  /** Folders made here, by the handle that the page which asked for them got. */
  const madeHere = new Map<string, Made>();

  function madeBy(event: IpcMainInvokeEvent | IpcMainEvent, handle: string): Made {
    const made = madeHere.get(handle);
    if (!made || made.sender !== event.sender.id)
      throw new Error('A message about unknown files was refused.');
    return made;
  }

  function known(event: IpcMainInvokeEvent | IpcMainEvent) {
    const at = windowOf(event.sender);
    const frame = event.senderFrame;
    if (!at || !frame || frame !== event.sender.mainFrame || !frame.url.startsWith(PAGE))
      throw new Error('A message from somewhere else was refused.');
    return at;
  }

  function checked(method: ShellMethod, args: unknown): readonly unknown[] {
    const read = SHELL_ARGUMENTS[method].safeParse(args);
    if (!read.success) throw new Error(`A message with wrong arguments was refused (${method}).`);
    return read.data;
  }

  async function openJob({ window, host }: ReturnType<typeof known>) {
    const chosen = await dialog.showOpenDialog(window, { filters: JOBS, properties: ['openFile'] });
    const [path] = chosen.filePaths;
    return chosen.canceled || path === undefined ? cancelled() : host.openPath(path);
  }

  async function saveJob(
    { window, host }: ReturnType<typeof known>,
    bytes: Uint8Array,
    name: string,
    handle: string | null,
  ) {
    if (handle !== null) return host.saveHandle(bytes, handle);
    const chosen = await dialog.showSaveDialog(window, {
      filters: JOBS,
      defaultPath: `${plain(name)}.kickflat`,
    });
    if (chosen.canceled || !chosen.filePath) return cancelled();
    const path = /\.kickflat$/i.test(chosen.filePath) ? chosen.filePath : `${chosen.filePath}.kickflat`;
    return host.savePath(bytes, path);
  }

  async function pickArt({ window }: ReturnType<typeof known>): Promise<Outcome<readonly PickedFile[]>> {
    const chosen = await dialog.showOpenDialog(window, {
      filters: ART,
      properties: ['openFile', 'multiSelections'],
    });
    if (chosen.canceled || chosen.filePaths.length === 0) return cancelled();
    const picked: PickedFile[] = [];
    for (const path of chosen.filePaths) {
      const bytes = await files.read(path, MOST_ART_BYTES);
      if (!bytes.ok) return bytes;
      picked.push({ name: basename(path), bytes: bytes.value });
    }
    return done(picked);
  }

  async function saveText(
    { window }: ReturnType<typeof known>,
    text: string,
    name: string,
  ): Promise<Outcome<null>> {
    const kind = extname(plain(name)).slice(1);
    const chosen = await dialog.showSaveDialog(window, {
      ...(kind ? { filters: [{ name: kind.toUpperCase(), extensions: [kind] }] } : {}),
      defaultPath: plain(name),
    });
    if (chosen.canceled || !chosen.filePath) return cancelled();
    const written = await files.write(chosen.filePath, new TextEncoder().encode(text));
    return written.ok ? done(null) : written;
  }

  function showMade({ dir, names }: Made): Outcome<null> {
    const [first] = names;
    reveal(first === undefined ? dir : join(dir, first));
    return done(null);
  }

  ipc.handle(CALL, async (event, method: unknown, given: unknown) => {
    const at = known(event);
    if (typeof method !== 'string' || !Object.hasOwn(SHELL_ARGUMENTS, method) || ELSEWHERE.has(method))
      throw new Error('A message of an unknown kind was refused.');
    const args = checked(method as ShellMethod, given);
    switch (method as Exclude<ShellMethod, 'exportFilms' | 'measureFilms' | 'dragOut'>) {
      case 'info':
        return at.host.info('electron');
      case 'openJob':
        return openJob(at);
      case 'openRecent':
        return at.host.openRecent(args[0] as string);
      case 'openDemo':
        return at.host.openDemo();
      case 'saveJob':
        return saveJob(at, args[0] as Uint8Array, args[1] as string, args[2] as string | null);
      case 'pickArt':
        return pickArt(at);
      case 'probeArt':
        return at.host.probeArt(args[0] as Uint8Array, args[1] as string);
      case 'splitArt':
        return at.host.splitArt(args[0] as Uint8Array, args[1] as string);
      case 'decodeArt':
        return at.host.decodeArt(args[0] as Uint8Array, args[1] as string, args[2] as number);
      case 'showMade':
        return showMade(madeBy(event, args[0] as string));
      case 'shop':
        return at.host.shop();
      case 'keepShop':
        return at.host.keepShop(args[0] as Shop);
      case 'saveText':
        return saveText(at, args[0] as string, args[1] as string);
      case 'autosave':
        return at.host.autosave(args[0] as Uint8Array | null, args[1] as string);
    }
  });

  /** Runs work that the page can watch and stop by its id. */
  async function watched<T>(
    event: IpcMainInvokeEvent,
    id: number,
    work: (progress: Progress, abort: Abort) => Promise<T>,
  ): Promise<T> {
    const key = `${event.sender.id}:${id}`;
    const abort = { aborted: false };
    running.set(key, abort);
    const progress = (share: number, text: string) => {
      if (!event.sender.isDestroyed()) event.sender.send(FILMS_PROGRESS, id, share, text);
      else abort.aborted = true;
    };
    try {
      return await work(progress, abort);
    } finally {
      running.delete(key);
    }
  }

  function numbered(id: unknown): number {
    if (typeof id !== 'number' || !Number.isInteger(id))
      throw new Error('A message with wrong arguments was refused.');
    return id;
  }

  ipc.handle(START_FILMS, async (event, id: unknown, given: unknown): Promise<Outcome<ExportedFiles>> => {
    const { window, host } = known(event);
    const number = numbered(id);
    const request = checked('exportFilms', [given])[0] as ExportRequest;
    const { what = 'films' } = request;
    const chosen = await dialog.showSaveDialog(window, {
      title: `Make a folder for the ${SETS[what]}`,
      buttonLabel: `Make ${SETS[what]}`,
      defaultPath: `${plain(request.name)} ${what}`,
      properties: ['createDirectory'],
    });
    if (chosen.canceled || !chosen.filePath) return cancelled();
    const dir = join(dirname(chosen.filePath), basename(chosen.filePath));
    const may = await canWriteAll(dir);
    if (!may.ok) return may;
    return watched(event, number, async (progress, abort) => {
      const made = await host.films(request, progress, abort);
      if (!made.ok) return made;
      const written = await files.writeAll(dir, made.value);
      if (!written.ok) return written;
      const listed = [...made.value].map(([name, bytes]) => ({ name, bytes: bytes.length }));
      const handle = randomBytes(12).toString('hex');
      const names = new Set(made.value.keys());
      const [first] = names;
      const picture = first === undefined ? null : await pictureOf(join(dir, first)).catch(() => null);
      madeHere.set(handle, { sender: event.sender.id, dir, names, picture });
      return done({ folder: basename(dir), files: listed, made: handle });
    });
  });

  ipc.handle(START_MEASURE, async (event, id: unknown, given: unknown) => {
    const { host } = known(event);
    const number = numbered(id);
    const job = checked('measureFilms', [given])[0] as Uint8Array;
    return watched(event, number, (progress, abort) => host.measure(job, progress, abort));
  });

  ipc.on(DRAG_OUT, (event, ...given: unknown[]) => {
    known(event);
    const [handle, name] = checked('dragOut', given) as [string, string];
    const made = madeBy(event, handle);
    if (!made.names.has(name)) throw new Error('A message about unknown files was refused.');
    // Without a picture the system would refuse to begin.
    if (made.picture && !made.picture.isEmpty())
      event.sender.startDrag({ file: join(made.dir, name), icon: made.picture });
  });

  ipc.on(STOP_FILMS, (event, id: unknown) => {
    known(event);
    const abort = running.get(`${event.sender.id}:${String(id)}`);
    if (abort) abort.aborted = true;
  });
}
