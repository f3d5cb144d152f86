import { join, resolve } from 'node:path';
import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  protocol,
  screen,
  session,
  shell,
  utilityProcess,
} from 'electron';
import { PAGE, SCHEME } from './channels.ts';
import { nodeFiles, pdfAside, sharpCodec, sweepLeftovers, trialAside, workerPool } from './host/index.ts';
import { handleShell } from './ipc.ts';
import { appMenu } from './menu.ts';
import { watchPage } from './pageRecovery.ts';
import { demoDir, pageDir, setDist, trialEntry, workerEntry } from './places.ts';
import { type ShellHost, shellHost } from './shellHost.ts';
import { askInUtility } from './utilityTrial.ts';
import { VERSION } from './version.ts';
import { pageFile } from './webFiles.ts';
import { SECURITY_HEADERS } from './webGuard.ts';
import { keepWindow, keptWindow, placeOn } from './windowState.ts';

/** The window's program. One instance; one window a job; everything the page asks for goes through `ipc.ts`. */
setDist(join(__dirname, '..'));

/** Inside a package the archive can not be run from by threads and processes; the packer leaves these files beside it. */
const unpacked = (path: string) => path.replace('app.asar', 'app.asar.unpacked');

const files = nodeFiles();
const aside = askInUtility(() =>
  utilityProcess.fork(unpacked(trialEntry()), [], { stdio: 'ignore', serviceName: 'Drawing trial' }),
);
const codec = sharpCodec({ trial: trialAside(aside), pdf: pdfAside(aside) });
const workers = workerPool(unpacked(workerEntry()));

interface Open {
  readonly window: BrowserWindow;
  readonly host: ShellHost;
  /** The job this window shows, once it is opened or saved. */
  job: string | null;
}
const windows = new Map<number, Open>();
/** Jobs asked for before the program was ready to show them. */
const waiting: string[] = [];
let started = false;

/** The job named among a start's arguments, from the folder it was started in. */
function jobIn(args: readonly string[], from: string): string | null {
  const named = args.slice(1).find((arg) => /\.kickflat$/i.test(arg));
  return named === undefined ? null : resolve(from, named);
}

protocol.registerSchemesAsPrivileged([
  { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
]);

async function servePage(request: Request): Promise<Response> {
  const { host, pathname } = new URL(request.url);
  const file = host === 'studio' ? await pageFile(pageDir(), null, pathname) : null;
  if (!file) return new Response('There is nothing here.', { status: 404, headers: SECURITY_HEADERS });
  const headers = { ...SECURITY_HEADERS, 'Content-Type': file.type };
  return new Response(file.bytes as Uint8Array<ArrayBuffer>, { headers });
}

function openWindow(job: string | null): void {
  const state = app.getPath('userData');
  const displays = screen.getAllDisplays().map((display) => display.workArea);
  const kept = placeOn(keptWindow(state), displays, windows.size);
  const window = new BrowserWindow({
    ...(kept
      ? { x: kept.x, y: kept.y, width: kept.width, height: kept.height }
      : { width: 1440, height: 900 }),
    minWidth: 960,
    minHeight: 640,
    show: false,
    backgroundColor: '#efe7da',
    webPreferences: {
      preload: join(__dirname, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  const host = shellHost({
    files,
    codec,
    workers: () => workers,
    state,
    demo: demoDir(),
    version: VERSION,
    now: Date.now,
    given: job,
    opened(path) {
      open.job = path;
      app.addRecentDocument(path);
    },
  });
  const { id } = window.webContents;
  const open: Open = { window, host, job };
  windows.set(id, open);
  window.once('ready-to-show', () => {
    if (kept?.maximized) window.maximize();
    window.show();
  });
  keepWindow(window, state);
  watchPage(window, dialog);
  window.on('closed', () => {
    windows.delete(id);
    void host.close();
  });
  void window.loadURL(`${PAGE}index.html`);
}

/** Shows the window that has the job already, else a new one; without a job, the window that is there. */
function show(job: string | null): void {
  const all = [...windows.values()];
  const there = job === null ? all.at(-1) : all.find((open) => open.job === job);
  if (!there) {
    openWindow(job);
    return;
  }
  if (there.window.isMinimized()) there.window.restore();
  there.window.focus();
}

/** No page may lead anywhere: not this window, not a new one, not a frame in it. */
function lockDown(): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
  // A picture may be copied out on the user's own key; nothing may be read, watched or asked for.
  const granted = (permission: string) => permission === 'clipboard-sanitized-write';
  session.defaultSession.setPermissionRequestHandler((_contents, permission, answer) =>
    answer(granted(permission)),
  );
  session.defaultSession.setPermissionCheckHandler((_contents, permission) => granted(permission));
}

async function start(): Promise<void> {
  await app.whenReady();
  lockDown();
  protocol.handle(SCHEME, servePage);
  await sweepLeftovers(app.getPath('userData'));
  handleShell({
    ipc: ipcMain,
    dialog,
    files,
    reveal: (path) => shell.showItemInFolder(path),
    pictureOf: (path) => app.getFileIcon(path, { size: 'normal' }),
    windowOf: (sender) => windows.get(sender.id) ?? null,
  });
  Menu.setApplicationMenu(Menu.buildFromTemplate(appMenu(process.platform, () => openWindow(null))));
  started = true;
  const given = jobIn(process.argv, process.cwd());
  const jobs = [...waiting.splice(0), ...(given === null ? [] : [given])];
  if (jobs.length === 0) openWindow(null);
  for (const job of jobs) show(job);
  app.on('activate', () => {
    if (windows.size === 0) openWindow(null);
  });
}

app.on('open-file', (event, path) => {
  event.preventDefault();
  if (started) show(path);
  else waiting.push(path);
});
app.on('window-all-closed', () => {
  if (process.platform !== 'darwin') app.quit();
});
app.on('will-quit', () => void workers.close());

if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_event, args, from) => {
    const job = jobIn(args, from);
    if (started) show(job);
    else if (job !== null) waiting.push(job);
  });
  void start();
} else app.quit();
