import { fork } from 'node:child_process';
import type { Picture } from '../../core/raster/index.ts';

/** Draws a whole SVG once; rejects when it can not be drawn, resolves with `late` when it takes too long. */
export type DrawingTrial = (svg: Uint8Array, seconds: number) => Promise<Picture | 'late'>;

/** What the child answers. */
export type TrialAnswer = { readonly picture: Picture } | { readonly error: string };

/**
 * A trial in a process of its own: the library can not be stopped in the middle of a drawing, and a program can not even
 * end before it has; a process can be killed. `entry` is the bundled `trialChild.mjs`.
 */
export function trialInChild(entry: string): DrawingTrial {
  return (svg, seconds) =>
    new Promise((resolve, reject) => {
      const child = fork(entry, { serialization: 'advanced', stdio: 'ignore', execArgv: [] });
      const timer = setTimeout(() => end(() => resolve('late')), seconds * 1000);
      function end(say: () => void): void {
        clearTimeout(timer);
        child.removeAllListeners();
        // Its end may still report an error, which nobody waits for any more.
        child.on('error', () => undefined);
        child.kill('SIGKILL');
        say();
      }
      child.on('message', (answer: TrialAnswer) =>
        end(() => ('picture' in answer ? resolve(answer.picture) : reject(new Error(answer.error)))),
      );
      child.on('error', (error) => end(() => reject(error)));
      child.on('exit', (code) => end(() => reject(new Error(`The trial ended with status ${code}.`))));
      child.send(svg);
    });
}
