import type { UtilityProcess } from 'electron';
import {
  type AskAside,
  type DrawingTrial,
  type GoingOn,
  type TrialAnswer,
  trialAside,
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
      let timer = setTimeout(late, seconds * 1000);
      function end(say: () => void): void {
        if (ended) return;
        ended = true;
        clearTimeout(timer);
        child.kill();
        say();
      }
      child.on('message', (answer: TrialAnswer | GoingOn) => {
        if (!('goingOn' in answer)) return end(() => resolve(answer));
        clearTimeout(timer);
        timer = setTimeout(late, longer * 1000);
      });
      child.on('exit', (code) => end(() => reject(new Error(`The trial ended with status ${code}.`))));
      child.postMessage(question);
    });
}

/** A drawing's trial in a utility process. */
export const trialInUtility = (start: () => UtilityProcess): DrawingTrial => trialAside(askInUtility(start));
