import dns from 'node:dns';
import net from 'node:net';
import { askInChild, pdfAside, sharpCodec, trialAside, workerPool } from '../../electron/host/index.ts';
import type { Kind } from './goodInputs.ts';
import { type Ending, importInput } from './importInput.ts';

/** What the fuzzer sends, and what comes back. */
export interface ImportCall {
  readonly id: number;
  readonly kind: Kind;
  readonly bytes: Uint8Array;
}
export interface ImportAnswer {
  readonly id: number;
  readonly ms: number;
  readonly memory: number;
  readonly ending: Ending | { readonly end: 'threw'; readonly stack: string };
  /** Attempts to reach a network from this process since the last answer. */
  readonly reached: readonly string[];
}

/** The process that inputs are imported in, as the command line would: nothing of it is shared with the fuzzer. */
let reached: string[] = [];
net.Socket.prototype.connect = ((...args: unknown[]) => {
  reached.push(JSON.stringify(args[0]) ?? 'somewhere');
  throw new Error('An import reached for the network.');
}) as never;
dns.lookup = ((name: string) => {
  reached.push(name);
  throw new Error('An import asked for an address.');
}) as never;

const [, , trialEntry, workerEntry] = process.argv as [string, string, string, string];
const aside = askInChild(trialEntry);
const workers = workerPool(workerEntry, 1);
const codec = sharpCodec({ trial: trialAside(aside), pdf: pdfAside(aside) });

process.on('message', async ({ id, kind, bytes }: ImportCall) => {
  const started = performance.now();
  let ending: ImportAnswer['ending'];
  try {
    ending = await importInput(kind, new Uint8Array(bytes), { codec, workers });
  } catch (error) {
    ending = { end: 'threw', stack: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
  const answer: ImportAnswer = {
    id,
    ms: performance.now() - started,
    memory: process.resourceUsage().maxRSS * 1024,
    ending,
    reached,
  };
  reached = [];
  process.send?.(answer);
});
process.send?.('ready');
