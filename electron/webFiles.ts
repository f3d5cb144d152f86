import { readFile } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
};

export interface PageFile {
  readonly bytes: Uint8Array;
  readonly type: string;
}

/** The page loads the shell's client first; it is not part of the page, since Electron has another. */
const CLIENT = '<script src="./shell.js"></script>';

/**
 * A file of the page by the path of its address, or null. Only files with a known ending that lie inside `pageDir`, by
 * their name alone: no dots that lead up, nothing hidden, no other separators.
 */
export async function pageFile(
  pageDir: string,
  client: string | null,
  address: string,
): Promise<PageFile | null> {
  let path: string;
  try {
    path = decodeURIComponent(address);
  } catch {
    return null;
  }
  if (path === '/shell.js' && client !== null)
    return { bytes: await readFile(client), type: TYPES['.js'] as string };
  if (path === '/') path = '/index.html';
  if (!/^(\/[A-Za-z0-9_][A-Za-z0-9._-]*)+$/.test(path)) return null;
  const type = TYPES[extname(path)];
  const file = normalize(join(pageDir, path));
  if (type === undefined || !file.startsWith(normalize(pageDir + sep))) return null;
  try {
    const bytes = await readFile(file);
    if (path !== '/index.html' || client === null) return { bytes, type };
    return { bytes: Buffer.from(bytes.toString('utf8').replace('<head>', `<head>${CLIENT}`)), type };
  } catch {
    return null;
  }
}
