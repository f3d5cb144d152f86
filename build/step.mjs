import { spawn } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { ROOT } from './root.mjs';

/** A failure with a sentence of its own: scripts print it without a stack trace. */
export class Refusal extends Error {}

/**
 * Runs a program in the project's root and resolves with its exit status; output goes straight through unless `quiet`,
 * which keeps it and hands it back.
 */
export function run(command, args, { quiet = false, env = {}, cwd = ROOT } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd,
      env: { ...process.env, ...env },
      stdio: quiet ? ['ignore', 'pipe', 'pipe'] : 'inherit',
      // npm is a batch file on Windows, which only a shell starts.
      shell: process.platform === 'win32' && command === 'npm',
    });
    let output = '';
    child.stdout?.on('data', (chunk) => {
      output += chunk;
    });
    child.stderr?.on('data', (chunk) => {
      output += chunk;
    });
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ status: code ?? (signal ? 128 : 1), output }));
  });
}

/** Runs a script's main part; a `Refusal` becomes one line on standard error and exit status 3. */
export async function main(work) {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    process.stderr.write(`kickflat: ${error.message}\n`);
    process.exitCode = 3;
  }
}

/** Whether this file is the one that node was asked to run. */
export const isEntry = (meta) => process.argv[1] !== undefined && meta.url === pathUrl(process.argv[1]);

function pathUrl(path) {
  try {
    return pathToFileURL(realpathSync(path)).href;
  } catch {
    return '';
  }
}
