import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface StudioHost {
  readonly address: string;
  /** Its own state folder, for a second start. */
  readonly state: string;
  stop(): void;
  /** Ends it as a crash would, with no chance to tidy up. */
  crash(): Promise<void>;
}

/** The real program serving its studio, with a state folder of its own, showing `job` where one is named. Takes the built `dist/`. */
export async function startHost(
  state: string = mkdtempSync(join(tmpdir(), 'kickflat-e2e-')),
  job: string | null = null,
): Promise<StudioHost> {
  const { DISPLAY: _display, WAYLAND_DISPLAY: _wayland, ...env } = process.env;
  const child: ChildProcess = spawn(
    process.execPath,
    [join(ROOT, 'dist/cli.mjs'), 'studio', ...(job === null ? [] : [job]), '--browser', '--json'],
    {
      cwd: state,
      env: { ...env, XDG_STATE_HOME: state, KICKFLAT_STATE: state, HOME: state },
      stdio: ['pipe', 'pipe', 'pipe'],
    },
  );
  let errors = '';
  child.stderr?.on('data', (chunk) => {
    errors += chunk;
  });
  const address = await new Promise<string>((resolve, reject) => {
    let text = '';
    child.stdout?.on('data', (chunk) => {
      text += chunk;
      const found = /"address":\s*"([^"]+)"/.exec(text);
      if (found) resolve(found[1]!);
    });
    child.on('exit', (code) => reject(new Error(`The studio's program ended with ${code}: ${errors}`)));
  });
  return {
    address,
    state,
    async crash() {
      const gone = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGKILL');
      await gone;
    },
    stop() {
      child.kill('SIGINT');
      rmSync(state, { recursive: true, force: true });
    },
  };
}
