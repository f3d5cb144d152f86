import type { UtilityProcess } from 'electron';
import {
  type AskAside,
  BUSY_S,
  type DrawingTrial,
  type GoingOn,
  type TrialAnswer,
  trialAside,
  watchLateness,
} from './host/index.ts';

/**
 * Questions put to Electron's utility processes: the packaged program can not be run as plain Node, so that `askInChild`
 * has nothing to start there. Answered and killed as in a child.
 */
export function askInUtility(start: () => UtilityProcess): AskAside {
  return (question, seconds, longer = seconds) =>
    new Promise((resolve, reject) => {
      const child = start();
      let ended = false;
      const late = () => end(() => resolve('late'));
      let unwatch = watchLateness(() => child.pid, seconds, BUSY_S, late);
      function end(say: () => void): void {
        if (ended) return;
        ended = true;
        unwatch();
        child.kill();
        say();
      }
      child.on('message', (answer: TrialAnswer | GoingOn) => {
        if (!('goingOn' in answer)) return end(() => resolve(answer));
        unwatch();
        unwatch = watchLateness(() => child.pid, longer, longer, late);
      });
      child.on('exit', (code) => end(() => reject(new Error(`The trial ended with status ${code}.`))));
      child.postMessage(question);
    });
}

/** A drawing's trial in a utility process. */
export const trialInUtility = (start: () => UtilityProcess): DrawingTrial => trialAside(askInUtility(start));
