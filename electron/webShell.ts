import type {
  ExportedFiles,
  LongWork,
  OpenedJob,
  PickedFile,
  SavedJob,
  Shell,
  ShellInfo,
} from '../core/ports/index.ts';
import type { FilmMeasure } from '../core/press/index.ts';
import { studioTrouble } from '../core/sentences/index.ts';
import type { Shop } from '../core/shop/index.ts';
import { cancelled, done, type Failure, type Outcome } from '../core/units/index.ts';
import { packMessage, unpackMessage } from './wire.ts';

/** The page's side of the browser host: `window.shell` over requests to the loopback address it came from. */
const KEPT = 'kickflat-token';
const TAB = 'kickflat-tab';
const ART_KINDS = '.png,.jpg,.jpeg,.webp,.tif,.tiff,.avif,.svg,.ora,.pdf';

/** The token comes once, after the `#` of the address, and is kept for as long as this tab is open. */
function takeToken(): string {
  const given = location.hash.slice(1);
  if (given === '') return sessionStorage.getItem(KEPT) ?? '';
  sessionStorage.setItem(KEPT, given);
  history.replaceState(null, '', location.pathname);
  return given;
}
const token = takeToken();

/** This tab's own name, the same after a reload: its unsaved work is kept apart from other tabs'. */
function tabName(): string {
  const known = sessionStorage.getItem(TAB);
  if (known) return known;
  const fresh = [...crypto.getRandomValues(new Uint8Array(8))]
    .map((n) => n.toString(16).padStart(2, '0'))
    .join('');
  sessionStorage.setItem(TAB, fresh);
  return fresh;
}
const tab = tabName();

const unreachable = (): Failure => studioTrouble.noAnswer();

function post(
  method: string,
  body: Uint8Array<ArrayBuffer> | string,
  signal?: AbortSignal,
): Promise<Response> {
  return fetch(`./shell/${method}`, {
    method: 'POST',
    headers: { 'x-kickflat-token': token },
    body,
    ...(signal ? { signal } : {}),
  });
}

async function refusalOf(response: Response): Promise<Failure> {
  const said = (await response.text().catch(() => '')).trim();
  return studioTrouble.refused(said);
}

async function call<T>(method: string, ...args: readonly unknown[]): Promise<Outcome<T>> {
  try {
    const response = await post(method, packMessage(args));
    if (!response.ok) return await refusalOf(response);
    return unpackMessage(new Uint8Array(await response.arrayBuffer())) as Outcome<T>;
  } catch {
    return unreachable();
  }
}

/** Asks for files with the browser's own dialog; an empty list when the user changes their mind. */
function pick(accept: string, multiple: boolean): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.multiple = multiple;
    input.hidden = true;
    const end = (files: readonly File[]) => {
      input.remove();
      resolve(files);
    };
    input.addEventListener('change', () => end([...(input.files ?? [])]));
    input.addEventListener('cancel', () => end([]));
    document.body.append(input);
    input.click();
  });
}

const bytesOf = async (file: File) => new Uint8Array(await file.arrayBuffer());

function download(bytes: Uint8Array, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the blob after the click returns.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

const fileName = (name: string) => name.replace(/[\\/:*?"<>|\p{Cc}]+/gu, ' ').trim() || 'job';

interface Line {
  readonly share?: number;
  readonly text?: string;
  readonly outcome?: Outcome<unknown>;
  readonly download?: string;
}

/** Lines of JSON as they come. */
async function* linesOf(response: Response): AsyncGenerator<Line> {
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  while (reader) {
    const { value, done: ended } = await reader.read();
    rest += value ?? '';
    const lines = rest.split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) if (line !== '') yield JSON.parse(line) as Line;
    if (ended) return;
  }
}

/** Work that streams how far it is; what it made is fetched at the end and handed to `take`. */
function longWork<T>(
  method: string,
  given: unknown,
  onProgress: (share: number, text: string) => void,
  take: (said: unknown, bytes: Uint8Array<ArrayBuffer>) => T,
): LongWork<T> {
  const stop = new AbortController();
  const run = async (): Promise<Outcome<T>> => {
    try {
      const response = await post(method, packMessage([given]), stop.signal);
      if (!response.ok) return await refusalOf(response);
      for await (const line of linesOf(response)) {
        if (line.outcome === undefined) {
          onProgress(line.share ?? 0, line.text ?? '');
          continue;
        }
        if (!line.outcome.ok) return line.outcome;
        const made = await post('download', line.download ?? '', stop.signal);
        if (!made.ok) return await refusalOf(made);
        return done(take(line.outcome.value, new Uint8Array(await made.arrayBuffer())));
      }
      return unreachable();
    } catch {
      return stop.signal.aborted ? cancelled() : unreachable();
    }
  };
  return { finished: run(), cancel: () => stop.abort() };
}

const shell: Shell = {
  async info() {
    const info = await call<never>('info', tab);
    // `info` is no outcome: only a refusal has `ok`.
    if ('ok' in info) throw new Error(info.ok ? 'unexpected' : `${info.reason} ${info.mend}`);
    return info as unknown as ShellInfo;
  },
  async openJob() {
    const [file] = await pick('.kickflat', false);
    if (!file) return cancelled();
    return done<OpenedJob>({
      bytes: await bytesOf(file),
      name: file.name.replace(/\.kickflat$/i, ''),
      handle: null,
    });
  },
  openRecent: (handle) => call<OpenedJob>('openRecent', handle, tab),
  openDemo: () => call<OpenedJob>('openDemo'),
  async saveJob(bytes, name, handle) {
    if (handle !== null) return call<SavedJob>('saveJob', bytes, name, handle, tab);
    download(bytes, `${fileName(name)}.kickflat`, 'application/zip');
    return done({ name, handle: null });
  },
  async pickArt() {
    const files = await pick(ART_KINDS, true);
    if (files.length === 0) return cancelled();
    const picked: PickedFile[] = [];
    for (const file of files) picked.push({ name: file.name, bytes: await bytesOf(file) });
    return done(picked);
  },
  probeArt: (bytes, name) => call('probeArt', bytes, name),
  splitArt: (bytes, name) => call('splitArt', bytes, name),
  decodeArt: (bytes, name, maxSidePx) => call('decodeArt', bytes, name, maxSidePx),
  exportFilms: (request, onProgress) =>
    longWork('exportFilms', request, onProgress, (said, zip) => {
      download(zip, `${fileName(request.name)} ${request.what ?? 'films'}.zip`, 'application/zip');
      return said as ExportedFiles;
    }),
  measureFilms: (job, onProgress) =>
    longWork(
      'measureFilms',
      job,
      onProgress,
      (_said, bytes) => unpackMessage(bytes) as readonly FilmMeasure[],
    ),
  showMade: async () => studioTrouble.cameAsDownload(),
  dragOut: () => undefined,
  shop: () => call<Shop>('shop'),
  keepShop: (shop) => call<void>('keepShop', shop),
  async saveText(text, name) {
    download(new TextEncoder().encode(text), fileName(name), 'text/plain');
    return done(null);
  },
  autosave: (bytes, name) => call('autosave', bytes, name, tab),
};

Object.defineProperty(window, 'shell', { value: Object.freeze(shell), enumerable: true });
