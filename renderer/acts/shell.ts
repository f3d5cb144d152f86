import type { Shell } from '../../core/ports/index.ts';

declare global {
  interface Window {
    readonly shell: Shell;
  }
}

/** The program around this page. */
export const shell = (): Shell => window.shell;
