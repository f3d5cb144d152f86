import type { Progress } from '../../core/units/index.ts';

/** Where a command writes: results to `out`, everything said to a person to `err`. */
export interface Voice {
  out(text: string): void;
  err(text: string): void;
  /** Whether `err` is a terminal: only there a bar may be drawn. */
  readonly terminal: boolean;
}

export const processVoice: Voice = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  terminal: process.stderr.isTTY === true,
};

const BAR_WIDTH = 24;

/** A bar that redraws itself in place, and how to take it away; without a terminal nothing is drawn. */
export function progressBar(voice: Voice): { readonly progress: Progress; clear(): void } {
  if (!voice.terminal) return { progress: () => undefined, clear: () => undefined };
  let shown = '';
  return {
    progress(share, text) {
      const filled = Math.round(Math.max(0, Math.min(1, share)) * BAR_WIDTH);
      const line = `${'█'.repeat(filled)}${'░'.repeat(BAR_WIDTH - filled)} ${text}`.slice(0, 100);
      if (line === shown) return;
      shown = line;
      voice.err(`\r\u001b[2K${line}`);
    },
    clear() {
      if (shown !== '') voice.err('\r\u001b[2K');
      shown = '';
    },
  };
}

/** One JSON object on standard output. */
export const sayJson = (voice: Voice, value: unknown): void =>
  voice.out(`${JSON.stringify(value, null, 2)}\n`);

/** Which files were written where, the last thing a making command says. */
export const sayWritten = (voice: Voice, folder: string, files: ReadonlyMap<string, Uint8Array>): void =>
  voice.out(`Written to ${folder}: ${[...files.keys()].join(', ')}\n`);
