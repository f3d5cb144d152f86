import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** Whether a window can be shown: Linux says so by its display, the others always have one. */
export const hasDisplay = (): boolean =>
  process.platform !== 'linux' || Boolean(process.env['DISPLAY'] || process.env['WAYLAND_DISPLAY']);

/**
 * The program of the Electron runtime, or null when it is not there. It is looked for by its files alone: importing the
 * package where the runtime is missing would start a download.
 */
export function electronProgram(from: string): string | null {
  try {
    const dir = dirname(createRequire(from).resolve('electron/package.json'));
    const path = join(dir, 'path.txt');
    if (!existsSync(path)) return null;
    const program = join(
      process.env['ELECTRON_OVERRIDE_DIST_PATH'] ?? join(dir, 'dist'),
      readFileSync(path, 'utf8').trim(),
    );
    return existsSync(program) ? program : null;
  } catch {
    return null;
  }
}

/** Opens an address in the user's browser; false when there is no way to. */
export function openBrowser(address: string): Promise<boolean> {
  if (!hasDisplay()) return Promise.resolve(false);
  const [program, args] =
    process.platform === 'darwin'
      ? ['open', [address]]
      : process.platform === 'win32'
        ? ['rundll32', ['url.dll,FileProtocolHandler', address]]
        : ['xdg-open', [address]];
  return new Promise((resolve) => {
    const child = spawn(program as string, args as string[], { stdio: 'ignore', detached: true });
    child.on('error', () => resolve(false));
    child.on('spawn', () => {
      child.unref();
      resolve(true);
    });
  });
}
