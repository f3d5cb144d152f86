import type { GoingOn, TrialAnswer, TrialQuestion } from './drawingTrial.ts';
import { drawSvg } from './drawSvg.ts';
import { pictureLibrary } from './pictureLibrary.ts';

/** Electron's utility processes speak through a port of their own. */
interface ParentPort {
  once(event: 'message', listen: (message: { readonly data: TrialQuestion }) => void): void;
  postMessage(answer: TrialAnswer | GoingOn): void;
}
const { parentPort } = process as unknown as { readonly parentPort?: ParentPort };

const say = (answer: TrialAnswer | GoingOn): void => {
  if (parentPort) parentPort.postMessage(answer);
  else process.send?.(answer);
};

async function answerTo(question: TrialQuestion): Promise<TrialAnswer> {
  try {
    if (question instanceof Uint8Array) return { picture: await drawSvg(question) };
    if ('unseen' in question)
      return { picture: { ...(await drawSvg(question.unseen)), data: new Uint8Array(0) } };
    // What reads PDFs is large, and most questions are drawings.
    const { readPdf } = await import('./pdfPages.ts');
    return { pdf: await readPdf(question, () => say({ goingOn: true })) };
  } catch (error) {
    return { error: error instanceof Error ? error.message : String(error) };
  }
}

// Before it is asked. Whether it can be read is seen by the answer.
pictureLibrary().catch(() => {});

/** The other side of `askInChild` and `askInUtility`: answers what it is sent, once. */
if (parentPort) parentPort.once('message', async ({ data }) => say(await answerTo(data)));
else process.once('message', async (question: TrialQuestion) => say(await answerTo(question)));
