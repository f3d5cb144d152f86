import type { Workers } from '../core/ports/index.ts';
import { studioTrouble } from '../core/sentences/index.ts';
import { type Abort, cancelled, type Failure } from '../core/units/index.ts';
import {
  allCommands,
  COMMAND_NAMES,
  type Context,
  calledAs,
  commandHelp,
  commandNamed,
  generalHelp,
  processVoice,
  readOptions,
  unknown,
  type Voice,
} from './commands/index.ts';
import {
  askInChild,
  nodeFiles,
  pdfAside,
  Stopped,
  sharpCodec,
  trialAside,
  workerPool,
} from './host/index.ts';
import { trialEntry, workerEntry } from './places.ts';
import type { ReadyChild } from './readyChild.ts';

/** Exit status by the kind of failure; a stop by the user is what shells call it, 128 + SIGINT. */
const STATUS: Readonly<Record<Failure['kind'], number>> = { input: 2, file: 3, cancelled: 130 };

/** One line: what went wrong and what to do. Control characters of a file's name could move the cursor. */
function complain(voice: Voice, { kind, reason, mend }: Failure): number {
  const line = `kickflat: ${reason} ${mend}`.replace(/[\p{Cc}\p{Cf}]+/gu, ' ').trimEnd();
  voice.err(`${line}\n`);
  return STATUS[kind];
}

/** What the commands work with; threads start when they are first asked for. `ready` tries the first drawing. */
export function makeContext(
  voice: Voice,
  abort: Abort,
  ready?: ReadyChild,
): Context & { close(): Promise<void> } {
  let pool: Workers | undefined;
  const aside = askInChild(trialEntry(), ready);
  return {
    files: nodeFiles(),
    codec: sharpCodec({ trial: trialAside(aside), pdf: pdfAside(aside) }),
    workers: () => {
      pool ??= workerPool(workerEntry());
      return pool;
    },
    voice,
    abort,
    close: async () => pool?.close(),
  };
}

/** The whole command line; resolves with the exit status and never rejects for anything a user can do. */
export async function main(
  args: readonly string[],
  voice: Voice = processVoice,
  ready?: ReadyChild,
): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === 'help') {
    const specs = (await allCommands()).map((c) => c.spec);
    voice.out(generalHelp(specs, calledAs(process.env)));
    return 0;
  }
  const command = await commandNamed(name);
  if (!command) return complain(voice, unknown('command', name, COMMAND_NAMES, 'See kickflat --help.'));
  const given = readOptions(command.spec, rest);
  if (!given.ok) return complain(voice, given);
  if (given.value.flag('help')) {
    voice.out(commandHelp(command.spec, calledAs(process.env)));
    return 0;
  }
  const abort = { aborted: false };
  const stop = () => {
    abort.aborted = true;
  };
  const context = makeContext(voice, abort, ready);
  // Not once: a terminal and the program that started this one may both tell of the same stop.
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  try {
    const ended = await command.run(given.value, context);
    return ended.ok ? ended.value : complain(voice, ended);
  } catch (error) {
    if (error instanceof Stopped || abort.aborted) return complain(voice, cancelled());
    return complain(voice, bug(error));
  } finally {
    process.removeListener('SIGINT', stop);
    process.removeListener('SIGTERM', stop);
    await context.close();
  }
}

/** A mistake of ours: the user gets one line; whoever mends it sets KICKFLAT_TRACE and gets the stack. */
function bug(error: unknown): Failure {
  if (process.env['KICKFLAT_TRACE'] !== undefined) throw error;
  const { message } = error instanceof Error ? error : new Error(String(error));
  const first = message.split('\n')[0] ?? '';
  return studioTrouble.bug(first.slice(0, 200));
}
