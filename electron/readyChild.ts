import { type ChildProcess, fork } from 'node:child_process';

/** A process for one question to `host/trialChild.ts`, bundled at `entry`. */
export const startChild = (entry: string): ChildProcess =>
  fork(entry, { serialization: 'advanced', stdio: 'ignore', execArgv: [] });

/** Such a process that waits for its question. It ends with the program that started it, and does not keep that from ending. */
export interface ReadyChild {
  /** Hands it over, once; null where it has ended meanwhile. */
  take(): ChildProcess | null;
  /** Ends it where nobody took it. */
  end(): void;
}

/** Starts a process ahead of its question, so that whoever asks need not wait until it has read its program. */
export function readyChild(entry: string): ReadyChild {
  let child: ChildProcess | null = startChild(entry);
  // That it could not start is seen by whoever asks.
  child.on('error', () => undefined);
  child.unref();
  child.channel?.unref();
  const give = (): ChildProcess | null => {
    const given = child;
    child = null;
    return given;
  };
  return {
    take() {
      const given = give();
      if (!given?.connected || given.exitCode !== null || given.signalCode !== null) return null;
      given.removeAllListeners();
      given.ref();
      given.channel?.ref();
      return given;
    },
    end() {
      give()?.kill('SIGKILL');
    },
  };
}
