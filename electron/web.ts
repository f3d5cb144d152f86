import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type Zippable, zipSync } from 'fflate';
import type { ExportRequest } from '../core/ports/index.ts';
import { studioTrouble } from '../core/sentences/index.ts';
import type { Shop } from '../core/shop/index.ts';
import { type Abort, done, type Outcome, type Progress } from '../core/units/index.ts';
import { MOST_MESSAGE, SHELL_ARGUMENTS, type ShellMethod } from './shellArguments.ts';
import type { ShellHost } from './shellHost.ts';
import { readBody, TooLarge } from './webBody.ts';
import { pageFile } from './webFiles.ts';
import { knowsToken, refuse, SECURITY_HEADERS } from './webGuard.ts';
import { packMessage, unpackMessage } from './wire.ts';

export interface StudioServer {
  /** The address to open, with the launch's token after the `#`, which no browser sends along. */
  readonly address: string;
  readonly port: number;
  readonly token: string;
  close(): Promise<void>;
}

export interface StudioParts {
  readonly host: ShellHost;
  /** The built page. */
  readonly pageDir: string;
  /** The bundled client that gives the page its `window.shell`. */
  readonly client: string;
}

/** Bodies that are being read or worked on at once; more wait their turn, so that memory stays bounded. */
const MOST_AT_ONCE = 4;
/** Requests that may wait for a turn. */
const MOST_WAITING = 600;
/** ms for a request's headers, and for all of it. */
const HEADERS_MS = 10_000;
const REQUEST_MS = 120_000;
/** Finished exports that wait to be fetched; older ones are forgotten. */
const MOST_DOWNLOADS = 2;

const FIXED_DATE = '1980-01-01T00:00:00';

/** Turns taken one after the other, a few at a time. */
function turnstile(most: number, waiting: number) {
  let inside = 0;
  const queue: (() => void)[] = [];
  return {
    async enter(): Promise<boolean> {
      if (inside >= most) {
        if (queue.length >= waiting) return false;
        await new Promise<void>((resolve) => queue.push(resolve));
      }
      inside++;
      return true;
    },
    leave(): void {
      inside--;
      queue.shift()?.();
    },
  };
}

/** The studio in a browser: one page and its shell on a loopback address that only this machine reaches. */
export async function serveStudio({ host, pageDir, client }: StudioParts): Promise<StudioServer> {
  const token = randomBytes(32).toString('base64url');
  const downloads = new Map<string, Uint8Array>();
  const turns = turnstile(MOST_AT_ONCE, MOST_WAITING);
  let port = 0;

  function answer(response: ServerResponse, status: number, type: string, body: Uint8Array | string): void {
    response.writeHead(status, {
      ...SECURITY_HEADERS,
      'Content-Type': type,
      'Content-Length': Buffer.byteLength(body),
    });
    response.end(body);
  }
  const say = (response: ServerResponse, status: number, text: string) =>
    answer(response, status, 'text/plain; charset=utf-8', `${text}\n`);

  /** Keeps bytes until the page fetches them; the name under which it does. */
  function keepDownload(bytes: Uint8Array): string {
    const id = randomBytes(12).toString('hex');
    downloads.set(id, bytes);
    for (const old of [...downloads.keys()].slice(0, -MOST_DOWNLOADS)) downloads.delete(old);
    return id;
  }

  /** Progress as lines of JSON while it runs; the last line is the outcome. A page that goes away stops the work. */
  async function stream<T>(
    response: ServerResponse,
    work: (progress: Progress, abort: Abort) => Promise<Outcome<T>>,
    last: (made: T) => object,
  ): Promise<void> {
    const abort = { aborted: false };
    response.on('close', () => {
      abort.aborted = true;
    });
    response.writeHead(200, { ...SECURITY_HEADERS, 'Content-Type': 'application/x-ndjson' });
    const line = (value: unknown) => void response.write(`${JSON.stringify(value)}\n`);
    const made = await work((share, text) => line({ share, text }), abort);
    line(made.ok ? last(made.value) : { outcome: made });
    response.end();
  }

  const streamFilms = (request: ExportRequest, response: ServerResponse) =>
    stream(
      response,
      (progress, abort) => host.films(request, progress, abort),
      (made) => {
        const entries: Zippable = {};
        for (const [name, bytes] of made) entries[name] = [bytes, { level: 0, mtime: FIXED_DATE }];
        const files = [...made].map(([name, bytes]) => ({ name, bytes: bytes.length }));
        return {
          outcome: done({ folder: null, files, made: null }),
          download: keepDownload(zipSync(entries)),
        };
      },
    );

  const streamMeasures = (job: Uint8Array, response: ServerResponse) =>
    stream(
      response,
      (progress, abort) => host.measure(job, progress, abort),
      (made) => ({ outcome: done(null), download: keepDownload(packMessage(made)) }),
    );

  async function call(method: ShellMethod, args: readonly unknown[]): Promise<unknown> {
    switch (method) {
      case 'info':
        return host.info('browser', args[0] as string | undefined);
      case 'openRecent':
        return host.openRecent(args[0] as string, args[1] as string | undefined);
      case 'openDemo':
        return host.openDemo();
      case 'saveJob':
        return args[2] === null
          ? studioTrouble.noFile()
          : host.saveHandle(args[0] as Uint8Array, args[2] as string, args[3] as string | undefined);
      case 'probeArt':
        return host.probeArt(args[0] as Uint8Array, args[1] as string);
      case 'splitArt':
        return host.splitArt(args[0] as Uint8Array, args[1] as string);
      case 'decodeArt':
        return host.decodeArt(args[0] as Uint8Array, args[1] as string, args[2] as number);
      case 'shop':
        return host.shop();
      case 'keepShop':
        return host.keepShop(args[0] as Shop);
      case 'autosave':
        return host.autosave(args[0] as Uint8Array | null, args[1] as string, args[2] as string | undefined);
      default:
        return studioTrouble.doneByPage(method) satisfies Outcome<never>;
    }
  }

  async function serveCall(
    method: ShellMethod,
    request: IncomingMessage,
    response: ServerResponse,
  ): Promise<void> {
    let args: readonly unknown[];
    try {
      const body = unpackMessage(await readBody(request, MOST_MESSAGE[method]));
      const read = SHELL_ARGUMENTS[method].safeParse(body);
      if (!read.success) return say(response, 400, 'The message is not what this call takes.');
      args = read.data;
    } catch (error) {
      if (error instanceof TooLarge) {
        response.setHeader('Connection', 'close');
        return say(response, 413, 'The message is too large.');
      }
      if (error instanceof SyntaxError) return say(response, 400, 'The message is damaged.');
      throw error;
    }
    if (method === 'exportFilms') return streamFilms(args[0] as ExportRequest, response);
    if (method === 'measureFilms') return streamMeasures(args[0] as Uint8Array, response);
    answer(response, 200, 'application/octet-stream', packMessage(await call(method, args)));
  }

  async function serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const refused = refuse(request, port);
    if (refused) return say(response, refused.status, refused.why);
    const path = (request.url ?? '/').replace(/[?#].*$/s, '');
    if (request.method === 'GET' || request.method === 'HEAD') {
      const file = await pageFile(pageDir, client, path);
      return file
        ? answer(response, 200, file.type, file.bytes)
        : say(response, 404, 'There is nothing here.');
    }
    if (request.method !== 'POST')
      return say(response, 405, 'The studio does not take this kind of request.');
    if (!knowsToken(request, token))
      return say(response, 401, 'Open the studio from the address it printed.');
    const name = /^\/shell\/([A-Za-z]{1,40})$/.exec(path)?.[1];
    if (name === 'download') {
      const id = new TextDecoder().decode(await readBody(request, 64));
      const bytes = downloads.get(id);
      downloads.delete(id);
      return bytes
        ? answer(response, 200, 'application/zip', bytes)
        : say(response, 404, 'It was fetched already.');
    }
    if (name === undefined || !Object.hasOwn(SHELL_ARGUMENTS, name))
      return say(response, 404, 'There is no such call.');
    if (!(await turns.enter())) return say(response, 503, 'Too much at once: try again in a moment.');
    try {
      await serveCall(name as ShellMethod, request, response);
    } finally {
      turns.leave();
    }
  }

  const server: Server = createServer(
    { headersTimeout: HEADERS_MS, requestTimeout: REQUEST_MS },
    (request, response) => {
      serve(request, response).catch((error: unknown) => {
        // A page that went away is no trouble; anything else is a bug, said without its insides.
        if (!response.headersSent && !response.destroyed)
          say(response, error instanceof TooLarge ? 413 : 500, 'Something went wrong inside Kickflat.');
        else response.destroy();
      });
    },
  );
  server.maxHeadersCount = 100;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port: 0 }, resolve);
  });
  port = (server.address() as AddressInfo).port;
  return {
    address: `http://127.0.0.1:${port}/#${token}`,
    port,
    token,
    async close() {
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
      await host.close();
    },
  };
}
