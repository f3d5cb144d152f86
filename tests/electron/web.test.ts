import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Abort, done, type Progress } from '../../core/units/index.ts';
import type { ShellHost } from '../../electron/shellHost.ts';
import { type StudioServer, serveStudio } from '../../electron/web.ts';
import { packMessage, unpackMessage } from '../../electron/wire.ts';

/** A host that notes what it was asked; the server under test is the real one. */
const asked: string[] = [];
let filming: { abort: Abort; end: () => void } | null = null;
const info = { host: 'browser' as const, version: '1', recent: [], opened: null, recovered: null };
const probe = {
  mediaType: 'image/png' as const,
  widthPx: 1,
  heightPx: 2,
  stated: null,
  alpha: true,
  vector: false,
};
const host = {
  info: async () => info,
  openRecent: async (handle: string) => {
    asked.push(`recent ${handle}`);
    return { ok: false, kind: 'input', reason: 'Gone.', mend: 'Open it again.' };
  },
  openDemo: async () => ({
    ok: true,
    value: { bytes: new Uint8Array([7, 8, 9]), name: 'Demo', handle: null },
  }),
  saveHandle: async (bytes: Uint8Array, handle: string) => {
    asked.push(`save ${bytes.length} ${handle}`);
    return { ok: true, value: { name: 'a', handle } };
  },
  splitArt: async () => ({ ok: true, value: [] }) as never,
  probeArt: async (bytes: Uint8Array, name: string) => {
    asked.push(`probe ${bytes.length} ${name}`);
    return { ok: true, value: probe };
  },
  decodeArt: async () => ({ ok: true, value: { width: 1, height: 1, data: new Uint8Array([1, 2, 3, 4]) } }),
  films: async (_request: unknown, progress: Progress, abort: Abort) => {
    progress(0.5, 'film 1 of 2');
    if ((_request as { name: string }).name === 'slow')
      await new Promise<void>((end) => {
        filming = { abort, end };
      });
    return abort.aborted
      ? { ok: false, kind: 'cancelled', reason: 'Stopped.', mend: 'Nothing was written.' }
      : { ok: true, value: new Map([['films.pdf', new Uint8Array([37, 80, 68, 70])]]) };
  },
  measure: async (job: Uint8Array, progress: Progress) => {
    progress(0.25, 'measuring film 1 of 4');
    return { ok: true, value: [{ inkId: 'key', fine: { lines: new Uint8Array([0, job.length]) } }] };
  },
  autosave: async () => done(null),
  close: async () => undefined,
} as unknown as ShellHost;

let dir: string;
let server: StudioServer;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-web-'));
  const page = join(dir, 'page');
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(
    join(page, 'index.html'),
    '<!doctype html><html><head><title>t</title></head><body></body></html>',
  );
  writeFileSync(join(page, 'assets', 'main-a1.js'), 'export {};');
  writeFileSync(join(page, '.hidden.js'), 'hidden');
  writeFileSync(join(dir, 'secret.js'), 'secret');
  writeFileSync(join(dir, 'shell.js'), 'client');
  server = await serveStudio({ host, pageDir: page, client: join(dir, 'shell.js') });
});
afterAll(async () => {
  await server.close();
  rmSync(dir, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}
/** A request as bare as possible: every header is the test's own. */
function send(
  method: string,
  path: string,
  headers: Readonly<Record<string, string>> = {},
  body?: Uint8Array,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const call = request(
      { host: '127.0.0.1', port: server.port, method, path, headers, agent: false },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('end', () =>
          resolve({
            status: response.statusCode ?? 0,
            headers: response.headers,
            body: Buffer.concat(chunks),
          }),
        );
        response.on('error', reject);
      },
    );
    call.on('error', reject);
    call.end(body);
  });
}
const right = () => ({ 'x-kickflat-token': server.token });
const call = (method: string, args: unknown, headers: Readonly<Record<string, string>> = right()) =>
  send('POST', `/shell/${method}`, headers, packMessage(args));

describe('the page', () => {
  test('is served with its client first, isolated and under a strict policy', async () => {
    const { status, headers, body } = await send('GET', '/');
    expect(status).toBe(200);
    expect(body.toString()).toMatch(/<head><script src="\.\/shell\.js"><\/script>/);
    expect(headers['cross-origin-opener-policy']).toBe('same-origin');
    expect(headers['cross-origin-embedder-policy']).toBe('require-corp');
    expect(headers['content-security-policy']).toContain("default-src 'none'");
    expect(headers['content-security-policy']).not.toMatch(
      /script-src[^;]*('unsafe-inline'|'unsafe-eval'|https?:|\*)/,
    );
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['access-control-allow-origin']).toBeUndefined();
    expect((await send('GET', '/shell.js')).body.toString()).toBe('client');
    expect((await send('GET', '/assets/main-a1.js')).headers['content-type']).toContain('text/javascript');
  });

  for (const path of [
    '/../secret.js',
    '/assets/../../secret.js',
    '/%2e%2e/secret.js',
    '/%2e%2e%2fsecret.js',
    '/..%5csecret.js',
    '/assets/%00main-a1.js',
    '//etc/passwd',
    '/.hidden.js',
    '/assets',
    '/%',
    '/index.html/../../secret.js',
    '/secret.js%00.js',
  ])
    test(`${path} leads nowhere`, async () => {
      const { status, body } = await send('GET', path);
      expect(status).toBe(404);
      expect(body.toString()).not.toContain('secret');
    });
});

describe('who is answered', () => {
  test('the address ends in the token, which is long and new with every launch', async () => {
    expect(server.address).toBe(`http://127.0.0.1:${server.port}/#${server.token}`);
    expect(server.token.length).toBeGreaterThanOrEqual(40);
    const other = await serveStudio({ host, pageDir: dir, client: join(dir, 'shell.js') });
    expect(other.token).not.toBe(server.token);
    await other.close();
  });

  const strangers: readonly (readonly [string, Readonly<Record<string, string>>, number])[] = [
    ['a name that someone points at the loopback address', { host: 'evil.example' }, 421],
    ['that name with the right port', { host: 'evil.example:PORT' }, 421],
    ['the right address with another port', { host: '127.0.0.1:1' }, 421],
    ['another page', { origin: 'https://evil.example' }, 403],
    ['a page without an origin of its own', { origin: 'null' }, 403],
    ['another port of this machine', { origin: 'http://127.0.0.1:1' }, 403],
    ['a request the browser says comes from elsewhere', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a request from another name of the same site', { 'sec-fetch-site': 'same-site' }, 403],
  ];
  for (const [what, headers, status] of strangers)
    test(`${what} is refused, token or not`, async () => {
      const named = Object.fromEntries(
        Object.entries(headers).map(([k, v]) => [k, v.replace('PORT', String(server.port))]),
      );
      expect((await call('info', [], { ...right(), ...named })).status).toBe(status);
      expect((await send('GET', '/', named)).status).toBe(status);
    });

  test('no token, a wrong one, a longer one and an empty one are refused', async () => {
    for (const token of [undefined, '', 'x', `${server.token}x`, server.token.slice(1), 'é'.repeat(43)]) {
      const { status } = await call(
        'info',
        [],
        token === undefined ? {} : { 'x-kickflat-token': Buffer.from(token).toString('latin1') },
      );
      expect(status).toBe(401);
    }
    expect(asked).toEqual([]);
  });

  test('a browser’s preflight for a page elsewhere gets no permission', async () => {
    const { status, headers } = await send('OPTIONS', '/shell/info', {
      origin: 'https://evil.example',
      'access-control-request-method': 'POST',
    });
    expect(status).toBe(403);
    expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });

  test('only GET, HEAD and POST are taken; unknown calls and inherited names are not there', async () => {
    expect((await send('PUT', '/shell/info', right())).status).toBe(405);
    for (const name of ['nothing', 'constructor', 'toString', '__proto__', 'hasOwnProperty', 'info/x', ''])
      expect((await call(name, [])).status, name).toBe(404);
  });
});

describe('calls', () => {
  test('carry bytes both ways', async () => {
    const demo = unpackMessage((await call('openDemo', [])).body) as {
      value: { bytes: Uint8Array; name: string };
    };
    expect([...demo.value.bytes]).toEqual([7, 8, 9]);
    expect(unpackMessage((await call('info', [])).body)).toEqual(info);
    expect(unpackMessage((await call('probeArt', [new Uint8Array(5), 'a.png'])).body)).toEqual({
      ok: true,
      value: probe,
    });
    expect(asked.at(-1)).toBe('probe 5 a.png');
    const handle = 'a'.repeat(24);
    await call('saveJob', [new Uint8Array(3), 'a', handle]);
    expect(asked.at(-1)).toBe(`save 3 ${handle}`);
  });

  test('with other arguments, damaged or too large are refused before the host is asked', async () => {
    const before = asked.length;
    for (const [method, args] of [
      ['openRecent', ['../../etc/passwd']],
      ['openRecent', []],
      ['saveJob', [new Uint8Array(3), 'a', '/home/someone/job']],
      ['saveJob', ['text', 'a', null]],
      ['probeArt', [new Uint8Array(3), 'x'.repeat(500)]],
      ['decodeArt', [new Uint8Array(3), 'a', 1e9]],
      ['decodeArt', [new Uint8Array(3), 'a', 0.5]],
      ['exportFilms', [{ job: new Uint8Array(3), name: 'a', faces: ['side'], masks: false }]],
      ['info', [1]],
    ] as const)
      expect((await call(method, args)).status, `${method} ${JSON.stringify(args).slice(0, 60)}`).toBe(400);
    expect((await send('POST', '/shell/info', right(), new Uint8Array([1, 2]))).status).toBe(400);
    expect(
      (await send('POST', '/shell/info', right(), new TextEncoder().encode('{"json": "not a message"}')))
        .status,
    ).toBe(400);
    expect(
      (
        await send('POST', '/shell/info', { ...right(), 'content-length': String(2 ** 40) }).catch(() => ({
          status: 413,
        }))
      ).status,
    ).toBe(413);
    expect(asked).toHaveLength(before);
  });

  test('a body that grows past its limit without saying so is cut off long before its end', async () => {
    const before = asked.length;
    const outcome = await new Promise<{ got: string; sent: number; late: boolean }>((resolve) => {
      const socket = connect(server.port, '127.0.0.1');
      let got = '';
      let sent = 0;
      let late = false;
      const timer = setTimeout(() => {
        late = true;
        socket.destroy();
      }, 10_000);
      socket.on('data', (chunk) => {
        got += chunk.toString();
      });
      socket.on('error', () => undefined);
      socket.on('close', () => {
        clearTimeout(timer);
        resolve({ got, sent, late });
      });
      socket.write(
        `POST /shell/info HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nx-kickflat-token: ${server.token}\r\nTransfer-Encoding: chunked\r\n\r\n`,
      );
      const piece = Buffer.concat([Buffer.from('10000\r\n'), Buffer.alloc(65536, 97), Buffer.from('\r\n')]);
      const push = () => {
        if (socket.destroyed || sent > 2 ** 28) return;
        socket.write(piece, () => {
          sent += piece.length;
          setImmediate(push);
        });
      };
      push();
    });
    expect(outcome.late).toBe(false);
    // The limit of this call is 1 MB; what lies in the sockets' own buffers may be gone as well.
    expect(outcome.sent).toBeLessThan(2 ** 26);
    // The refusal may be lost when the sender is still sending; anything else would be an answer.
    expect(outcome.got).toMatch(/^$|^HTTP\/1\.1 413/);
    expect(asked).toHaveLength(before);
  });

  test('five hundred at once are all answered, and the server goes on', async () => {
    const answers = await Promise.all(
      Array.from({ length: 500 }, (_, i) =>
        call('probeArt', [new Uint8Array(2000), `${i}.png`]).then(
          (a) => a.status,
          () => -1,
        ),
      ),
    );
    expect(answers.filter((status) => status !== 200)).toEqual([]);
    expect((await call('info', [])).status).toBe(200);
  });
});

describe('films', () => {
  const film = (name: string) => [{ job: new Uint8Array(3), name, faces: ['bottom'], masks: false }];

  test('come as lines of progress, then once as a download', async () => {
    const { body } = await call('exportFilms', film('quick'));
    const lines = body
      .toString()
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines[0]).toEqual({ share: 0.5, text: 'film 1 of 2' });
    expect(lines[1]?.['outcome']).toEqual({
      ok: true,
      value: { folder: null, files: [{ name: 'films.pdf', bytes: 4 }], made: null },
    });
    const id = new TextEncoder().encode(String(lines[1]?.['download']));
    expect((await send('POST', '/shell/download', {}, id)).status).toBe(401);
    const zip = await send('POST', '/shell/download', right(), id);
    expect([...(unzipSync(zip.body)['films.pdf'] ?? [])]).toEqual([37, 80, 68, 70]);
    expect((await send('POST', '/shell/download', right(), id)).status).toBe(404);
  });

  test('stop when the page goes away', async () => {
    const call2 = request({
      host: '127.0.0.1',
      port: server.port,
      method: 'POST',
      path: '/shell/exportFilms',
      headers: right(),
    });
    call2.on('error', () => undefined);
    call2.end(packMessage(film('slow')));
    while (!filming) await new Promise((resolve) => setTimeout(resolve, 5));
    expect(filming.abort.aborted).toBe(false);
    call2.destroy();
    const { abort, end } = filming;
    const until = Date.now() + 5000;
    while (!abort.aborted && Date.now() < until) await new Promise((resolve) => setTimeout(resolve, 5));
    expect(abort.aborted).toBe(true);
    end();
    expect((await call('info', [])).status).toBe(200);
  });
});

test('measured films come as lines of progress, then once with their bytes', async () => {
  const { body } = await call('measureFilms', [new Uint8Array(5)]);
  const lines = body
    .toString()
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);
  expect(lines[0]).toEqual({ share: 0.25, text: 'measuring film 1 of 4' });
  expect(lines[1]?.['outcome']).toEqual({ ok: true, value: null });
  const id = new TextEncoder().encode(String(lines[1]?.['download']));
  const made = await send('POST', '/shell/download', right(), id);
  expect(unpackMessage(new Uint8Array(made.body))).toEqual([
    { inkId: 'key', fine: { lines: new Uint8Array([0, 5]) } },
  ]);
});
