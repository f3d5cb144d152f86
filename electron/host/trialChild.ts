import type { TrialAnswer } from './drawingTrial.ts';
import { drawSvg } from './drawSvg.ts';

/** Electron's utility processes speak through a port of their own. */
interface ParentPort {
  once(event: 'message', listen: (message: { readonly data: Uint8Array }) => void): void;
  postMessage(answer: TrialAnswer): void;
}
const { parentPort } = process as unknown as { readonly parentPort?: ParentPort };

async function answerTo(svg: Uint8Array): Promise<TrialAnswer> {
  try {
    return { picture: await drawSvg(svg) };
  } catch (error) {
    return { error: error instanceof Error ? error.message : String(error) };
  }
}

/** The other side of `trialInChild` and `trialInUtility`: draws what it is sent, once. */
if (parentPort) parentPort.once('message', async ({ data }) => parentPort.postMessage(await answerTo(data)));
else process.once('message', async (svg: Uint8Array) => process.send?.(await answerTo(svg)));
