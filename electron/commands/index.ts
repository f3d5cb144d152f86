import * as add from './add.ts';
import * as calc from './calc.ts';
import * as check from './check.ts';
import type { CommandEntry } from './context.ts';
import * as deck from './deck.ts';
import * as films from './films.ts';
import * as inks from './inks.ts';
import * as make from './new.ts';
import * as press from './press.ts';
import * as printer from './printer.ts';
import * as proof from './proof.ts';
import * as reprint from './reprint.ts';
import * as shelf from './shelf.ts';
import * as shop from './shop.ts';
import * as studio from './studio.ts';
import * as tones from './tones.ts';
import * as traps from './traps.ts';

/** Every command, in the order of a run. */
export const COMMANDS: readonly CommandEntry[] = [
  make,
  add,
  printer,
  films,
  proof,
  inks,
  check,
  traps,
  tones,
  press,
  reprint,
  deck,
  shelf,
  calc,
  shop,
  studio,
];

export type { Context } from './context.ts';
export { sayFilms } from './films.ts';
export { calledAs, commandHelp, generalHelp } from './help.ts';
export { readOptions, unknown } from './options.ts';
export { processVoice, sayWritten, type Voice } from './say.ts';
