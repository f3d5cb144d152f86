import type { TrialAnswer } from './drawingTrial.ts';
import { drawSvg } from './drawSvg.ts';

/** The other side of `trialInChild`: draws what it is sent, once. */
process.once('message', async (svg: Uint8Array) => {
  let answer: TrialAnswer;
  try {
    answer = { picture: await drawSvg(svg) };
  } catch (error) {
    answer = { error: error instanceof Error ? error.message : String(error) };
  }
  process.send?.(answer);
});
