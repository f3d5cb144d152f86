import type { UtilityProcess } from 'electron';
import type { DrawingTrial, TrialAnswer } from './host/index.ts';

/**
 * A drawing's trial in one of Electron's utility processes: the packaged program can not be run as plain Node, so that
 * `trialInChild` has nothing to start there. Drawn and killed as in a child.
 */
export function trialInUtility(start: () => UtilityProcess): DrawingTrial {
  return (svg, seconds) =>
    new Promise((resolve, reject) => {
      const child = start();
      let ended = false;
      const timer = setTimeout(() => end(() => resolve('late')), seconds * 1000);
      function end(say: () => void): void {
        if (ended) return;
        ended = true;
        clearTimeout(timer);
        child.kill();
        say();
      }
      child.on('message', (answer: TrialAnswer) =>
        end(() => ('picture' in answer ? resolve(answer.picture) : reject(new Error(answer.error)))),
      );
      child.on('exit', (code) => end(() => reject(new Error(`The trial ended with status ${code}.`))));
      child.postMessage(svg);
    });
}
