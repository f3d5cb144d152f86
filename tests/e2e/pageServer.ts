import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, BrowserContextOptions } from 'playwright-core';
import type { FakeDemo } from '../renderer/fakeShell.ts';
import { newStudioPage, type StudioPage } from './studioPage.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGE = process.env['KICKFLAT_PAGE'] ?? join(ROOT, 'dist/renderer');
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

/** Serves the built page without any host. */
export async function servePage(): Promise<{ readonly address: string; readonly server: Server }> {
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://page').pathname);
    try {
      const bytes = readFileSync(join(PAGE, path === '/' ? 'index.html' : path));
      response.setHeader(
        'content-type',
        TYPES[extname(path)] ?? (path === '/' ? 'text/html' : 'application/octet-stream'),
      );
      response.end(bytes);
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, server };
}

/** The demonstration job from the project's own scenario and drawings. */
export function demo(): FakeDemo {
  const read = (name: string) => readFileSync(join(ROOT, 'build/demo', name), 'utf8');
  const scenario = JSON.parse(read('scenario.json'));
  const { bottom, top } = scenario.faces;
  return {
    name: scenario.name,
    bottom: { name: bottom.art.file, svg: read(bottom.art.file) },
    top: { name: top.art.file, svg: read(top.art.file) },
    inks: { bottom: bottom.inks, top: top.inks },
    veneers: scenario.veneers,
    colourways: scenario.colourways,
  };
}

let script: Promise<string> | undefined;
const fakeShellScript = () => {
  script ??= build({
    stdin: {
      contents: `import { makeFakeShell } from './tests/renderer/fakeShell.ts';
        const { shell, host } = makeFakeShell(globalThis.DEMO);
        globalThis.shell = shell; globalThis.host = host;`,
      resolveDir: ROOT,
      loader: 'ts',
    },
    bundle: true,
    write: false,
    format: 'iife',
  }).then((made) => made.outputFiles[0]!.text);
  return script;
};

/** A fresh studio in a profile of its own, its program played by the page. */
export async function openStudio(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
): Promise<StudioPage> {
  const opened = await newStudioPage(browser, options);
  await opened.page.addInitScript(`globalThis.DEMO = ${JSON.stringify(demo())};\n${await fakeShellScript()}`);
  await opened.page.goto(address);
  return opened;
}
