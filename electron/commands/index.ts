import type { CommandEntry } from './context.ts';

/** Every command, in the order of a run. Each is read only when it is called: what one works with is large, and the others wait for it in vain. */
const COMMANDS: Readonly<Record<string, () => Promise<CommandEntry>>> = {
  new: () => import('./new.ts'),
  add: () => import('./add.ts'),
  printer: () => import('./printer.ts'),
  films: () => import('./films.ts'),
  proof: () => import('./proof.ts'),
  inks: () => import('./inks.ts'),
  check: () => import('./check.ts'),
  traps: () => import('./traps.ts'),
  tones: () => import('./tones.ts'),
  press: () => import('./press.ts'),
  reprint: () => import('./reprint.ts'),
  deck: () => import('./deck.ts'),
  shelf: () => import('./shelf.ts'),
  calc: () => import('./calc.ts'),
  shop: () => import('./shop.ts'),
  studio: () => import('./studio.ts'),
};

export const COMMAND_NAMES: readonly string[] = Object.keys(COMMANDS);

/** The command of that name, or undefined. */
export const commandNamed = async (name: string): Promise<CommandEntry | undefined> =>
  Object.hasOwn(COMMANDS, name) ? COMMANDS[name]?.() : undefined;

/** All of them, for what tells of all. */
export const allCommands = (): Promise<CommandEntry[]> =>
  Promise.all(Object.values(COMMANDS).map((read) => read()));

export type { Context } from './context.ts';
export { sayFilms } from './films.ts';
export { calledAs, commandHelp, generalHelp } from './help.ts';
export { readOptions, unknown } from './options.ts';
export { processVoice, sayWritten, type Voice } from './say.ts';
