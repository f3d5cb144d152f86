import { badInput, type Outcome } from '../../core/units/index.ts';
import type { Command } from './context.ts';
import type { CommandSpec } from './options.ts';

export const spec: CommandSpec = {
  name: 'press',
  takes: ['JOB'],
  does: 'will write run sheet, jig and templates; not part of this version yet',
  options: [{ name: 'out', value: 'DIR', help: 'the folder to make' }],
  example: 'kickflat press out/night-heron.kickflat --out press',
};

export const run: Command = async (): Promise<Outcome<0>> =>
  badInput(
    'This version of Kickflat does not write press sheets yet.',
    'Use kickflat films for the films and kickflat calc for the numbers.',
  );
