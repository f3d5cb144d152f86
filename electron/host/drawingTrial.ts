import type { Picture } from '../../core/raster/index.ts';
import { type ReadyChild, startChild } from '../readyChild.ts';
import { watchLateness } from './lateness.ts';
import type { PdfAsked, PdfRead } from './pdfPages.ts';

/**
 * Draws a whole SVG once; rejects when it can not be drawn, resolves with `late` when it takes too long. `unseen`: nobody looks at the picture,
 * whose points may then be left out.
 */
export type DrawingTrial = (svg: Uint8Array, seconds: number, unseen?: boolean) => Promise<Picture | 'late'>;
/** Draws the layers of a PDF; `late` when they take more than `seconds` in small, or then more than `longer`. */
export type PdfReader = (asked: PdfAsked, seconds: number, longer: number) => Promise<PdfRead | 'late'>;

/** An SVG that is drawn for its size alone: some megabytes of points need not be handed from process to process. */
export interface UnseenAsked {
  readonly unseen: Uint8Array;
}
/** What the child is sent: an SVG, or a PDF with what is wanted of it. */
export type TrialQuestion = Uint8Array | UnseenAsked | PdfAsked;
/** What the child says once it has tried something in small and goes on: it then has longer. */
export interface GoingOn {
  readonly goingOn: true;
}
/** What the child answers. */
export type TrialAnswer =
  | { readonly picture: Picture }
  | { readonly pdf: PdfRead }
  | { readonly error: string };

/** Seconds that a question may take where it has not worked so long, those aside in which others had the processors; 10 are promised. */
export const BUSY_S = 9;

/**
 * Puts one question to a process of its own and ends it, with its answer or after `seconds` of work; after `longer` once it goes
 * on.
 */
export type AskAside = (
  question: TrialQuestion,
  seconds: number,
  longer?: number,
) => Promise<TrialAnswer | 'late'>;

/**
 * A process of its own for each question: the libraries can not be stopped in the middle of a drawing, and a program can not
 * even end before it has; a process can be killed. `entry` is the bundled `trialChild.ts`; the first question goes to `ready`
 * where there is one.
 */
export function askInChild(entry: string, ready?: ReadyChild): AskAside {
  return (question, seconds, longer = seconds) =>
    new Promise((resolve, reject) => {
      const child = ready?.take() ?? startChild(entry);
      const late = () => end(() => resolve('late'));
      let unwatch = watchLateness(() => child.pid, seconds, BUSY_S, late);
      function end(say: () => void): void {
        unwatch();
        child.removeAllListeners();
        // Its end may still report an error, which nobody waits for any more.
        child.on('error', () => undefined);
        child.kill('SIGKILL');
        say();
      }
      child.on('message', (answer: TrialAnswer | GoingOn) => {
        if (!('goingOn' in answer)) return end(() => resolve(answer));
        unwatch();
        unwatch = watchLateness(() => child.pid, longer, longer, late);
      });
      child.on('error', (error) => end(() => reject(error)));
      child.on('exit', (code) => end(() => reject(new Error(`The trial ended with status ${code}.`))));
      child.send(question);
    });
}

/** A drawing's trial aside. */
export const trialAside =
  (ask: AskAside): DrawingTrial =>
  async (svg, seconds, unseen = false) => {
    const answer = await ask(unseen ? { unseen: svg } : svg, seconds);
    if (answer === 'late' || 'picture' in answer) return answer === 'late' ? answer : answer.picture;
    throw new Error('error' in answer ? answer.error : 'The trial answered another question.');
  };

/** A PDF read aside. */
export const pdfAside =
  (ask: AskAside): PdfReader =>
  async (asked, seconds, longer) => {
    const answer = await ask(asked, seconds, longer);
    if (answer === 'late' || 'pdf' in answer) return answer === 'late' ? answer : answer.pdf;
    throw new Error('error' in answer ? answer.error : 'The trial answered another question.');
  };

/** A drawing's trial in a process of its own. */
export const trialInChild = (entry: string): DrawingTrial => trialAside(askInChild(entry));
