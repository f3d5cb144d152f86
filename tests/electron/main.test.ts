import { EventEmitter } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';

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
interface Window {
  readonly options: { readonly webPreferences: Readonly<Record<string, unknown>> };
  readonly webContents: EventEmitter & {
    readonly id: number;
    opener?: () => { action: string };
    reloads: number;
  };
  url: string;
}

/**
 * Stands in for the `electron` module with the parts that main.ts uses, each behaving as Electron documents it: `app`
 * emits, `whenReady` resolves, a window makes its contents and `app` hears of them, handlers are kept.
 */
function standIn(dir: string, firstInstance = true) {
  const windows: Window[] = [];
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
      reload() {
        this.reloads++;
      },
      setWindowOpenHandler(opener: () => { action: string }) {
        (this as { opener?: () => { action: string } }).opener = opener;
      },
    });
    url = '';
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
  }
  const handlers = new Map<string, unknown>();
  const protocols = new Map<string, (request: Request) => Promise<Response>>();
  const permissions: {
    request?: (c: unknown, p: string, answer: (ok: boolean) => void) => void;
    check?: () => boolean;
  } = {};
  const electron = {
    app,
    BrowserWindow,
    dialog: {},
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
  return { electron, app, windows, state, handlers, protocols, permissions };
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

  test('denies navigation, new windows, embedded views and every permission', async () => {
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
    expect(permissions.check?.()).toBe(false);
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
    expect(first.state.recent).toEqual([job]);
    first.app.emit('second-instance', {}, ['electron', '.', join(dir, 'b.kickflat')]);
    let prevented = false;
    first.app.emit('open-file', { preventDefault: () => (prevented = true) }, join(dir, 'c.kickflat'));
    await settle();
    expect(prevented).toBe(true);
    expect(first.windows).toHaveLength(3);
    const second = await launch([], false);
    expect(second.windows).toHaveLength(0);
    expect(second.state.quit).toBe(true);
  });

  test('a page that dies comes back', async () => {
    const { windows } = await launch();
    windows[0]?.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(windows[0]?.webContents.reloads).toBe(1);
    windows[0]?.webContents.emit('render-process-gone', {}, { reason: 'clean-exit' });
    expect(windows[0]?.webContents.reloads).toBe(1);
  });
});
