import { join } from 'node:path';
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, session } from 'electron';
import { PAGE, SCHEME } from './channels.ts';
import { nodeFiles, sharpCodec, sweepLeftovers, workerPool } from './host/index.ts';
import { handleShell } from './ipc.ts';
import { appMenu } from './menu.ts';
import { demoDir, pageDir, setDist, workerEntry } from './places.ts';
import { type ShellHost, shellHost } from './shellHost.ts';
import { VERSION } from './version.ts';
import { pageFile } from './webFiles.ts';
import { SECURITY_HEADERS } from './webGuard.ts';

/** The window's program. One instance; one window a job; everything the page asks for goes through `ipc.ts`. */
setDist(join(__dirname, '..'));

const files = nodeFiles();
const codec = sharpCodec();
/** Inside a package the archive can not be run from by threads; the packer leaves this file beside it. */
const workers = workerPool(workerEntry().replace('app.asar', 'app.asar.unpacked'));
const windows = new Map<number, { window: BrowserWindow; host: ShellHost }>();
const waiting: string[] = [];

const jobIn = (args: readonly string[]) => args.slice(1).find((arg) => /\.kickflat$/i.test(arg)) ?? null;

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
  const window = new BrowserWindow({
    width: 1440,
    height: 900,
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
    state: app.getPath('userData'),
    demo: demoDir(),
    version: VERSION,
    now: Date.now,
    given: job,
  });
  const { id } = window.webContents;
  windows.set(id, { window, host });
  window.once('ready-to-show', () => window.show());
  window.on('closed', () => {
    windows.delete(id);
    void host.close();
  });
  // A page that hangs or dies comes back with its unsaved work.
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason !== 'clean-exit' && !window.isDestroyed()) window.webContents.reload();
  });
  void window.loadURL(`${PAGE}index.html`);
  if (job !== null) app.addRecentDocument(job);
}

/** No page may lead anywhere: not this window, not a new one, not a frame in it. */
function lockDown(): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
  session.defaultSession.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.defaultSession.setPermissionCheckHandler(() => false);
}

async function start(): Promise<void> {
  await app.whenReady();
  lockDown();
  protocol.handle(SCHEME, servePage);
  await sweepLeftovers(app.getPath('userData'));
  handleShell({ ipc: ipcMain, dialog, files, windowOf: (sender) => windows.get(sender.id) ?? null });
  Menu.setApplicationMenu(Menu.buildFromTemplate(appMenu(process.platform, () => openWindow(null))));
  const given = jobIn(process.argv);
  const jobs = [...waiting.splice(0), ...(given === null ? [] : [given])];
  if (jobs.length === 0) openWindow(null);
  for (const job of jobs) openWindow(job);
  app.on('activate', () => {
    if (windows.size === 0) openWindow(null);
  });
}

app.on('open-file', (event, path) => {
  event.preventDefault();
  if (app.isReady()) openWindow(path);
  else waiting.push(path);
});
app.on('window-all-closed', () => {
  if (process.platform !== 'darwin') app.quit();
});
app.on('will-quit', () => void workers.close());

if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_event, args) => openWindow(jobIn(args)));
  void start();
} else app.quit();
