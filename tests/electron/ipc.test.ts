import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { EMPTY_SHOP } from '../../core/shop/index.ts';
import type { Abort, Progress } from '../../core/units/index.ts';
import {
  CALL,
  DRAG_OUT,
  FILMS_PROGRESS,
  START_FILMS,
  START_MEASURE,
  STOP_FILMS,
} from '../../electron/channels.ts';
import { nodeFiles } from '../../electron/host/index.ts';
import { handleShell } from '../../electron/ipc.ts';
import type { ShellHost } from '../../electron/shellHost.ts';

type Listener = (event: unknown, ...args: unknown[]) => unknown;

/** Stands in for Electron's ipcMain: `handle` answers one invoke a channel, `on` any number of sends. */
function standIn() {
  const handlers = new Map<string, Listener>();
  const listeners = new Map<string, Listener>();
  return {
    ipc: {
      handle: (channel: string, listener: Listener) => void handlers.set(channel, listener),
      on: (channel: string, listener: Listener) => void listeners.set(channel, listener),
    },
    invoke: async (channel: string, event: unknown, ...args: unknown[]) =>
      handlers.get(channel)?.(event, ...args),
    send: (channel: string, event: unknown, ...args: unknown[]) => listeners.get(channel)?.(event, ...args),
  };
}

let dir: string;
let asked: unknown[][];
let chosen: { open: string[]; save: string | undefined };
let slow: { abort: Abort; end: () => void } | null;
let told: unknown[][];
let outside: unknown[][];
let main: ReturnType<typeof standIn>;
let ours: Record<string, unknown>;

const mainFrame = { url: 'kickflat://studio/index.html' };

beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-ipc-'));
  asked = [];
  told = [];
  outside = [];
  slow = null;
  chosen = { open: [], save: undefined };
  main = standIn();
  const note =
    (name: string, value: unknown = null) =>
    async (...args: unknown[]) => {
      asked.push([name, ...args]);
      return { ok: true, value };
    };
  const host = {
    info: async (kind: string) => ({ host: kind }),
    openPath: note('openPath'),
    openRecent: note('openRecent'),
    openDemo: note('openDemo'),
    saveHandle: note('saveHandle'),
    savePath: note('savePath'),
    probeArt: note('probeArt'),
    splitArt: note('splitArt'),
    decodeArt: note('decodeArt'),
    films: async (request: { name: string }, progress: Progress, abort: Abort) => {
      progress(0.25, 'film 1 of 4');
      if (request.name === 'slow')
        await new Promise<void>((end) => {
          slow = { abort, end };
        });
      return abort.aborted
        ? { ok: false, kind: 'cancelled', reason: 'Stopped.', mend: 'Nothing was written.' }
        : {
            ok: true,
            value: new Map([
              ['films.pdf', new Uint8Array([1])],
              ['films.json', Buffer.from('{"version":1,"job":"a"}')],
            ]),
          };
    },
    measure: async (job: Uint8Array, progress: Progress, abort: Abort) => {
      progress(0.5, 'measuring film 1 of 2');
      asked.push(['measure', job]);
      if (job[0] === 9)
        await new Promise<void>((end) => {
          slow = { abort, end };
        });
      return abort.aborted
        ? { ok: false, kind: 'cancelled', reason: 'Stopped.', mend: 'Nothing was written.' }
        : { ok: true, value: [{ inkId: 'key' }] };
    },
    shop: note('shop'),
    keepShop: note('keepShop'),
    autosave: async (...args: unknown[]) => void asked.push(['autosave', ...args]),
    close: async () => undefined,
  } as unknown as ShellHost;
  const sender = {
    id: 1,
    mainFrame,
    isDestroyed: () => false,
    send: (...args: unknown[]) => void told.push(args),
    startDrag: (item: unknown) => void outside.push(['drag', item]),
  };
  ours = { sender, senderFrame: mainFrame };
  handleShell({
    ipc: main.ipc as never,
    dialog: {
      showOpenDialog: async () => ({ canceled: chosen.open.length === 0, filePaths: chosen.open }),
      showSaveDialog: async () => ({ canceled: chosen.save === undefined, filePath: chosen.save ?? '' }),
    } as never,
    files: nodeFiles(),
    reveal: (path) => void outside.push(['reveal', path]),
    pictureOf: async (path) => ({ of: path, isEmpty: () => false }) as never,
    windowOf: (from) => ((from as unknown) === sender ? { window: {} as never, host } : null),
  });
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const call = (method: unknown, args: unknown, event: unknown = ours) =>
  main.invoke(CALL, event, method, args);

describe('messages from the window', () => {
  test('reach the host with what the page gave, and dialogs give the paths', async () => {
    expect(await call('info', [])).toEqual({ host: 'electron' });
    await call('probeArt', [new Uint8Array([1]), 'a.png']);
    expect(asked.at(-1)).toEqual(['probeArt', new Uint8Array([1]), 'a.png']);
    await call('splitArt', [new Uint8Array([1]), 'a.ora']);
    expect(asked.at(-1)).toEqual(['splitArt', new Uint8Array([1]), 'a.ora']);
    chosen.open = [join(dir, 'a.kickflat')];
    await call('openJob', []);
    expect(asked.at(-1)).toEqual(['openPath', join(dir, 'a.kickflat')]);
    chosen.save = join(dir, 'b');
    await call('saveJob', [new Uint8Array([2]), 'b', null]);
    expect(asked.at(-1)).toEqual(['savePath', new Uint8Array([2]), join(dir, 'b.kickflat')]);
    await call('saveJob', [new Uint8Array([2]), 'b', 'f'.repeat(24)]);
    expect(asked.at(-1)).toEqual(['saveHandle', new Uint8Array([2]), 'f'.repeat(24)]);
    writeFileSync(join(dir, 'p.png'), 'picture');
    chosen.open = [join(dir, 'p.png')];
    expect(await call('pickArt', [])).toMatchObject({ ok: true, value: [{ name: 'p.png' }] });
  });

  test('a dialog that the user closes is a stop, not an error', async () => {
    for (const [method, args] of [
      ['openJob', []],
      ['pickArt', []],
      ['saveJob', [new Uint8Array(1), 'a', null]],
    ] as const)
      expect(await call(method, args)).toMatchObject({ ok: false, kind: 'cancelled' });
    expect(asked).toEqual([]);
  });

  test('are refused from another window, another frame, another page and a frame that is gone', async () => {
    const { sender } = ours as { sender: object };
    for (const event of [
      { sender: { id: 9, mainFrame }, senderFrame: mainFrame },
      { sender, senderFrame: { url: 'kickflat://studio/index.html' } },
      { sender, senderFrame: null },
      { sender: { ...sender, mainFrame: { url: 'https://evil.example/' } }, senderFrame: mainFrame },
    ])
      await expect(call('info', [], event)).rejects.toThrow('somewhere else');
    const moved = { url: 'https://evil.example/kickflat://studio/' };
    Object.assign(sender, { mainFrame: moved });
    await expect(call('info', [], { sender, senderFrame: moved })).rejects.toThrow('somewhere else');
    await expect(main.invoke(START_FILMS, { sender, senderFrame: moved }, 1, {})).rejects.toThrow(
      'somewhere else',
    );
    expect(() => main.send(STOP_FILMS, { sender, senderFrame: moved }, 1)).toThrow('somewhere else');
    expect(asked).toEqual([]);
  });

  test('with a path for a handle, other types or unknown names are refused before the host hears of them', async () => {
    for (const [method, args] of [
      ['openRecent', ['/etc/passwd']],
      ['openRecent', 'x'],
      ['saveJob', [new Uint8Array(1), 'a', '../b']],
      ['saveJob', [[1, 2], 'a', null]],
      ['probeArt', [new Uint8Array(1)]],
      ['decodeArt', [new Uint8Array(1), 'a', -1]],
      ['info', undefined],
      ['exportFilms', []],
      ['constructor', []],
      ['__proto__', []],
      [{}, []],
    ] as const)
      await expect(call(method, args)).rejects.toThrow('refused');
    await expect(main.invoke(START_FILMS, ours, '1', {})).rejects.toThrow('refused');
    await expect(main.invoke(START_FILMS, ours, 1, { job: 'x' })).rejects.toThrow('refused');
    expect(asked).toEqual([]);
  });
});

describe('films', () => {
  const request = (name: string) => ({ job: new Uint8Array(1), name, faces: ['bottom'], masks: false });

  test('go whole into the folder the user chose, with progress to the page that asked', async () => {
    chosen.save = join(dir, 'heron films');
    expect(await main.invoke(START_FILMS, ours, 4, request('quick'))).toEqual({
      ok: true,
      value: {
        folder: 'heron films',
        made: expect.stringMatching(/^[0-9a-f]{24}$/),
        files: [
          { name: 'films.pdf', bytes: 1 },
          { name: 'films.json', bytes: 23 },
        ],
      },
    });
    expect(told).toEqual([[FILMS_PROGRESS, 4, 0.25, 'film 1 of 4']]);
    expect(readdirSync(join(dir, 'heron films')).sort()).toEqual(['films.json', 'films.pdf']);
  });

  test('once made are shown in their folder and dragged out, these alone, by the page they were made for', async () => {
    const folder = join(dir, 'heron films');
    chosen.save = folder;
    const made = (await main.invoke(START_FILMS, ours, 4, request('quick'))) as { value: { made: string } };
    const handle = made.value.made;
    expect(await call('showMade', [handle])).toEqual({ ok: true, value: null });
    main.send(DRAG_OUT, ours, handle, 'films.pdf');
    expect(outside).toEqual([
      ['reveal', join(folder, 'films.pdf')],
      [
        'drag',
        { file: join(folder, 'films.pdf'), icon: expect.objectContaining({ of: join(folder, 'films.pdf') }) },
      ],
    ]);
    for (const [event, ...args] of [
      [ours, handle, '../notes.txt'],
      [ours, handle, '/etc/passwd'],
      [ours, handle, 'other.pdf'],
      [ours, 'f'.repeat(24), 'films.pdf'],
      [ours, folder, 'films.pdf'],
      [ours, handle],
      [{ sender: { id: 9, mainFrame }, senderFrame: mainFrame }, handle, 'films.pdf'],
    ] as const)
      expect(() => main.send(DRAG_OUT, event, ...args), String(args)).toThrow('refused');
    await expect(call('showMade', ['f'.repeat(24)])).rejects.toThrow('refused');
    await expect(call('dragOut', [handle, 'films.pdf'])).rejects.toThrow('refused');
    expect(outside).toHaveLength(2);
  });

  test('never go into a folder with somebody’s files, and say so before the work', async () => {
    writeFileSync(join(dir, 'notes.txt'), 'mine');
    chosen.save = dir;
    expect(await main.invoke(START_FILMS, ours, 1, request('quick'))).toMatchObject({
      ok: false,
      kind: 'file',
    });
    expect(told).toEqual([]);
    expect(readFileSync(join(dir, 'notes.txt'), 'utf8')).toBe('mine');
  });

  test('stop when asked, and only the export that was named', async () => {
    chosen.save = join(dir, 'films');
    const finished = main.invoke(START_FILMS, ours, 7, request('slow'));
    while (!slow) await new Promise((resolve) => setTimeout(resolve, 5));
    main.send(STOP_FILMS, ours, 8);
    expect(slow.abort.aborted).toBe(false);
    main.send(STOP_FILMS, ours, 7);
    expect(slow.abort.aborted).toBe(true);
    slow.end();
    expect(await finished).toMatchObject({ ok: false, kind: 'cancelled' });
    expect(readdirSync(dir)).toEqual([]);
  });
});

describe('measuring films', () => {
  test('tells how far it is, gives what was measured, and asks for no folder', async () => {
    expect(await main.invoke(START_MEASURE, ours, 3, new Uint8Array([1]))).toEqual({
      ok: true,
      value: [{ inkId: 'key' }],
    });
    expect(asked).toEqual([['measure', new Uint8Array([1])]]);
    expect(told).toEqual([[FILMS_PROGRESS, 3, 0.5, 'measuring film 1 of 2']]);
  });

  test('stops when asked, and is refused with anything but bytes or by its plain name', async () => {
    const finished = main.invoke(START_MEASURE, ours, 5, new Uint8Array([9]));
    while (!slow) await new Promise((resolve) => setTimeout(resolve, 5));
    main.send(STOP_FILMS, ours, 5);
    slow.end();
    expect(await finished).toMatchObject({ ok: false, kind: 'cancelled' });
    await expect(main.invoke(START_MEASURE, ours, 1, 'bytes')).rejects.toThrow('refused');
    await expect(main.invoke(START_MEASURE, ours, '1', new Uint8Array(1))).rejects.toThrow('refused');
    await expect(call('measureFilms', [new Uint8Array(1)])).rejects.toThrow('unknown kind');
  });
});

test('the shop’s figures are checked on this side again before they are kept', async () => {
  await call('keepShop', [EMPTY_SHOP]);
  expect(asked).toEqual([['keepShop', EMPTY_SHOP]]);
  await expect(call('keepShop', [{ ...EMPTY_SHOP, lamps: [{ name: 7 }] }])).rejects.toThrow(
    'wrong arguments',
  );
  await expect(call('keepShop', [])).rejects.toThrow('wrong arguments');
  expect(asked).toHaveLength(1);
});
