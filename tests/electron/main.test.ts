import { EventEmitter } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { newJob, packJob } from '../../core/job/index.ts';
import { CALL } from '../../electron/channels.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
let code: string;
beforeAll(async () => {
  const made = await build({
    absWorkingDir: ROOT,
    entryPoints: ['electron/main.ts'],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node22',
    external: ['electron', 'sharp'],
    write: false,
    logLevel: 'silent',
  });
  code = made.outputFiles[0]?.text ?? '';
});

/** What the stand-in's windows were told. */
interface Window extends EventEmitter {
  readonly options: {
    readonly webPreferences: Readonly<Record<string, unknown>>;
    readonly x?: number;
    readonly width: number;
  };
  readonly webContents: EventEmitter & {
    readonly id: number;
    opener?: () => { action: string };
    reloads: number;
    crashes: number;
  };
  url: string;
  maximized: boolean;
  focused: number;
}

/**
 * Stands in for the `electron` module with the parts that main.ts uses, each behaving as Electron documents it: `app`
 * emits, `whenReady` resolves, a window makes its contents and `app` hears of them, handlers are kept.
 */
function standIn(dir: string, firstInstance = true) {
  const windows: Window[] = [];
  const asked: { message: string; answer: (button: number) => void; signal: AbortSignal }[] = [];
  const state = { quit: false, recent: [] as string[], scheme: null as unknown, menu: null as unknown };
  const app = Object.assign(new EventEmitter(), {
    whenReady: async () => undefined,
    isReady: () => true,
    getPath: () => join(dir, 'state'),
    requestSingleInstanceLock: () => firstInstance,
    addRecentDocument: (path: string) => void state.recent.push(path),
    quit: () => {
      state.quit = true;
    },
  });
  let ids = 0;
  class BrowserWindow extends EventEmitter {
    readonly webContents = Object.assign(new EventEmitter(), {
      id: ++ids,
      reloads: 0,
      crashes: 0,
      forcefullyCrashRenderer() {
        this.crashes++;
        (this as unknown as EventEmitter).emit('render-process-gone', {}, { reason: 'crashed' });
      },
      reload() {
        this.reloads++;
      },
      setWindowOpenHandler(opener: () => { action: string }) {
        (this as { opener?: () => { action: string } }).opener = opener;
      },
    });
    url = '';
    maximized = false;
    focused = 0;
    constructor(readonly options: Window['options']) {
      super();
      windows.push(this as unknown as Window);
      app.emit('web-contents-created', {}, this.webContents);
    }
    async loadURL(url: string) {
      this.url = url;
    }
    show() {}
    isDestroyed() {
      return false;
    }
    isMinimized() {
      return false;
    }
    isMaximized() {
      return this.maximized;
    }
    maximize() {
      this.maximized = true;
    }
    focus() {
      this.focused++;
    }
    getNormalBounds() {
      return { x: 40, y: 60, width: 1200, height: 800 };
    }
  }
  const handlers = new Map<string, unknown>();
  const protocols = new Map<string, (request: Request) => Promise<Response>>();
  const permissions: {
    request?: (c: unknown, p: string, answer: (ok: boolean) => void) => void;
    check?: (c: unknown, p: string) => boolean;
  } = {};
  const electron = {
    app,
    BrowserWindow,
    dialog: {
      // As Electron documents it: an aborted question is answered as if it were cancelled.
      showMessageBox: (
        _window: unknown,
        { message, signal, cancelId }: { message: string; signal: AbortSignal; cancelId: number },
      ) =>
        new Promise((resolve) => {
          const answer = (response: number) => resolve({ response });
          signal.addEventListener('abort', () => answer(cancelId));
          asked.push({ message, answer, signal });
        }),
    },
    screen: { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] },
    utilityProcess: {},
    shell: {},
    ipcMain: {
      handle: (c: string, f: unknown) => void handlers.set(c, f),
      on: (c: string, f: unknown) => void handlers.set(c, f),
    },
    Menu: {
      buildFromTemplate: (template: unknown) => template,
      setApplicationMenu: (menu: unknown) => {
        state.menu = menu;
      },
    },
    protocol: {
      registerSchemesAsPrivileged: (schemes: unknown) => {
        state.scheme = schemes;
      },
      handle: (scheme: string, answer: (request: Request) => Promise<Response>) =>
        void protocols.set(scheme, answer),
    },
    session: {
      defaultSession: {
        setPermissionRequestHandler: (f: NonNullable<typeof permissions.request>) => {
          permissions.request = f;
        },
        setPermissionCheckHandler: (f: NonNullable<typeof permissions.check>) => {
          permissions.check = f;
        },
      },
    },
  };
  return { electron, app, windows, state, handlers, protocols, permissions, asked };
}

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-main-'));
  mkdirSync(join(dir, 'dist', 'renderer'), { recursive: true });
  writeFileSync(join(dir, 'dist', 'renderer', 'index.html'), '<html><head></head></html>');
  writeFileSync(join(dir, 'dist', 'secret.js'), 'secret');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const settle = () => new Promise((resolve) => setTimeout(resolve, 20));

/** Runs the bundle as Electron would, with its files in `dir`. */
async function launch(args: readonly string[] = [], firstInstance = true) {
  const at = standIn(dir, firstInstance);
  const real = createRequire(join(ROOT, 'package.json'));
  const require = (name: string) => (name === 'electron' ? at.electron : real(name));
  const before = process.argv;
  process.argv = ['electron', ...args];
  try {
    new Function('require', 'module', 'exports', '__dirname', code)(
      require,
      { exports: {} },
      {},
      join(dir, 'dist', 'electron'),
    );
    // A busy machine may take its time.
    if (firstInstance)
      await expect.poll(() => at.windows.length, { timeout: 20_000, interval: 5 }).toBeGreaterThan(0);
    await settle();
  } finally {
    process.argv = before;
  }
  return at;
}

describe('the window’s program', () => {
  test('opens one sandboxed, isolated window without Node on its own scheme', async () => {
    const { windows, state } = await launch();
    expect(windows).toHaveLength(1);
    expect(windows[0]?.url).toBe('kickflat://studio/index.html');
    expect(windows[0]?.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(JSON.stringify(windows[0]?.options)).not.toMatch(
      /bypassCSP|allowRunningInsecureContent|enableRemoteModule/,
    );
    expect(state.scheme).toEqual([
      { scheme: 'kickflat', privileges: expect.not.objectContaining({ bypassCSP: true }) },
    ]);
    expect(state.menu).toBeTruthy();
  });

  test('denies navigation, new windows, embedded views and every permission but to copy a picture out', async () => {
    const { windows, permissions } = await launch();
    const contents = windows[0]?.webContents;
    for (const event of ['will-navigate', 'will-redirect', 'will-attach-webview']) {
      let prevented = false;
      contents?.emit(event, { preventDefault: () => (prevented = true) }, 'https://evil.example');
      expect(prevented, event).toBe(true);
    }
    expect(contents?.opener?.()).toEqual({ action: 'deny' });
    for (const permission of ['media', 'geolocation', 'notifications', 'fileSystem']) {
      let answer: boolean | undefined;
      permissions.request?.(contents, permission, (ok) => {
        answer = ok;
      });
      expect(answer, permission).toBe(false);
    }
    for (const permission of ['media', 'clipboard-read', 'fileSystem'])
      expect(permissions.check?.(contents, permission), permission).toBe(false);
    // Copying a piece of art out, on the user's own key, is all that a page may.
    expect(permissions.check?.(contents, 'clipboard-sanitized-write')).toBe(true);
  });

  test('serves only the page’s own files, under the strict policy', async () => {
    const serve = (await launch()).protocols.get('kickflat') as (request: Request) => Promise<Response>;
    const page = await serve(new Request('kickflat://studio/index.html'));
    expect(page.status).toBe(200);
    expect(page.headers.get('content-security-policy')).toContain("default-src 'none'");
    for (const url of [
      'kickflat://studio/../secret.js',
      'kickflat://studio/%2e%2e/secret.js',
      'kickflat://other/index.html',
      'kickflat://studio/none.js',
    ])
      expect((await serve(new Request(url))).status, url).toBe(404);
  });

  test('a second start hands its job to the first and ends; a double click opens a window a job', async () => {
    const job = join(dir, 'a.kickflat');
    const first = await launch([job]);
    expect(first.windows).toHaveLength(1);
    first.app.emit('second-instance', {}, ['electron', '.', 'b.kickflat'], dir);
    let prevented = false;
    first.app.emit('open-file', { preventDefault: () => (prevented = true) }, join(dir, 'c.kickflat'));
    await settle();
    expect(prevented).toBe(true);
    expect(first.windows).toHaveLength(3);
    // A job that is open is shown, and without one the window that is there.
    first.app.emit('second-instance', {}, ['electron', '.', 'b.kickflat'], dir);
    first.app.emit('open-file', { preventDefault: () => undefined }, job);
    first.app.emit('second-instance', {}, ['electron', '.'], dir);
    expect(first.windows.map((window) => window.focused)).toEqual([1, 1, 1]);
    const second = await launch([], false);
    expect(second.windows).toHaveLength(0);
    expect(second.state.quit).toBe(true);
  });

  test('a job that was opened or saved stands among the system’s recent documents', async () => {
    const job = join(dir, 'a.kickflat');
    const deck = deckTemplate('popsicle-8.25');
    if (!deck) throw new Error('The deck is not there.');
    writeFileSync(job, packJob({ job: newJob({ name: 'a', deck }), art: new Map() }));
    const { state, handlers, windows } = await launch([job]);
    const frame = { url: 'kickflat://studio/index.html' };
    const sender = Object.assign(windows[0]?.webContents as object, { mainFrame: frame });
    const call = handlers.get(CALL) as (
      event: unknown,
      method: string,
      args: unknown[],
    ) => Promise<{ opened: { name: string } }>;
    expect((await call({ sender, senderFrame: frame }, 'info', [])).opened.name).toBe('a');
    expect(state.recent).toEqual([job]);
  });

  test('a window comes back where it stood, aside of others, and not where no screen is', async () => {
    const first = await launch();
    expect(first.windows[0]?.options).toMatchObject({ width: 1440, height: 900 });
    (first.windows[0] as Window).maximized = true;
    first.windows[0]?.emit('close');
    const second = await launch([join(dir, 'a.kickflat')]);
    expect(second.windows[0]?.options).toMatchObject({ x: 40, y: 60, width: 1200, height: 800 });
    second.windows[0]?.emit('ready-to-show');
    expect(second.windows[0]?.maximized).toBe(true);
    second.app.emit('second-instance', {}, ['electron', '.', 'b.kickflat'], dir);
    expect(second.windows[1]?.options).toMatchObject({ x: 68, y: 88 });
    const file = join(dir, 'state', 'window.json');
    for (const bad of [
      { x: 5000, y: 60, width: 1200, height: 800, maximized: false },
      { x: 40, y: -700, width: 1200, height: 800, maximized: false },
      { x: 1, y: 1, width: 1e9, height: 800, maximized: false },
      'not a state',
    ]) {
      writeFileSync(file, JSON.stringify(bad));
      const { x, width } = (await launch()).windows[0]?.options ?? {};
      expect([x, width]).toEqual([undefined, 1440]);
    }
  });

  test('a page that dies comes back by itself; one that dies again soon only when the user says so', async () => {
    const { windows, asked } = await launch();
    const contents = windows[0]?.webContents as Window['webContents'];
    contents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(contents.reloads).toBe(1);
    contents.emit('render-process-gone', {}, { reason: 'clean-exit' });
    expect([contents.reloads, asked.length]).toEqual([1, 0]);
    contents.emit('render-process-gone', {}, { reason: 'oom' });
    expect([contents.reloads, asked.length]).toEqual([1, 1]);
    expect(asked[0]?.message).toMatch(/stopped twice/);
    asked[0]?.answer(1);
    await expect.poll(() => contents.reloads).toBe(2);
  });

  test('a page that hangs is asked about once, left when it answers again, and started again when wanted', async () => {
    const { windows, asked } = await launch();
    const window = windows[0] as Window;
    window.emit('unresponsive');
    window.emit('unresponsive');
    expect(asked).toHaveLength(1);
    window.emit('responsive');
    await settle();
    expect([asked[0]?.signal.aborted, window.webContents.crashes]).toEqual([true, 0]);
    window.emit('unresponsive');
    asked[1]?.answer(1);
    await expect.poll(() => window.webContents.crashes).toBe(1);
    expect([window.webContents.crashes, window.webContents.reloads]).toEqual([1, 1]);
    window.emit('unresponsive');
    asked[2]?.answer(0);
    await settle();
    expect(window.webContents.crashes).toBe(1);
  });

  test('unsaved work outlives the page: loaded again, it is offered to it', async () => {
    const { handlers, windows } = await launch();
    const frame = { url: 'kickflat://studio/index.html' };
    const sender = Object.assign(windows[0]?.webContents as object, { mainFrame: frame });
    const call = (method: string, args: unknown[]) =>
      (handlers.get(CALL) as (event: unknown, method: string, args: unknown[]) => Promise<unknown>)(
        { sender, senderFrame: frame },
        method,
        args,
      );
    await call('autosave', [new Uint8Array([1, 2, 3]), 'Night Heron']);
    windows[0]?.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(await call('info', [])).toMatchObject({
      recovered: { name: 'Night Heron', bytes: new Uint8Array([1, 2, 3]), handle: null },
    });
  });
});
