import { makeCheck } from '../../core/makeCheck.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'check',
  takes: ['JOB'],
  does: 'lists every problem of a job: what, where, and what to do; exit status 1 when there are errors',
  options: [{ name: 'json', help: 'prints the problems as JSON' }],
  examples: ['kickflat check out/night-heron.kickflat'],
};

export const run: Command = async (given, context): Promise<Outcome<0 | 1>> => {
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job, art } = file.value;
  const checked = await makeCheck({ job, art, codec: context.codec, workers: context.workers() });
  if (!checked.ok) return checked;
  const problems = checked.value;
  const count = (severity: string) => problems.filter((p) => p.severity === severity).length;
  const errors = count('error');
  if (given.flag('json'))
    sayJson(context.voice, { errors, warnings: count('warning'), notes: count('note'), problems });
  else {
    for (const p of problems) {
      const where = [p.face, p.where].filter((part) => part).join(', ');
      context.voice.out(`${p.severity}: ${p.what}${where ? ` (${where})` : ''}\n    ${p.mend}\n`);
    }
    const summary = `${errors} errors, ${count('warning')} warnings, ${count('note')} notes`;
    context.voice.out(problems.length === 0 ? 'No problems found.\n' : `${summary}\n`);
  }
  return done(errors > 0 ? 1 : 0);
};
