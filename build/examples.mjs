import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { slackWater } from './examples/rope.mjs';
import { fogBank, tideTable } from './examples/shaded.mjs';
import { install } from './install.mjs';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

/**
 * The examples besides the demonstration, each a way of splitting art into inks: drawn here, made by the commands a user
 * would type, so that they show those too.
 */
export const EXAMPLES = [
  {
    name: 'slack-water',
    art: slackWater,
    says: 'one line ink over a base, on dark wood',
    options: ['--inks', '#f2ead6=Sail cream', '--base', '--veneer', 'plum', '--trap', '0.3mm'],
  },
  {
    name: 'fog-bank',
    art: fogBank,
    says: 'a shaded picture in index dots of four inks',
    options: [
      ...['--method', 'index', '--dot', '0.35mm'],
      ...['--inks', '#f0d9a8=Fog,#c98f7a=Dusk,#5d7f92=Slate,#23425a=Deep water'],
    ],
  },
  {
    name: 'tide-table',
    art: tideTable,
    says: 'two inks in halftone',
    options: ['--method', 'halftone', '--lpi', '30', '--inks', '#e8613c=Coral,#1d5c74=Channel blue'],
  },
];

/** A picture of the drawing, as a camera or a painting program would give it, for the examples in tones. */
async function picture(svg, file) {
  const sharp = (await import('sharp')).default;
  await sharp(Buffer.from(svg), { density: 25.4 * 6 })
    .png()
    .toFile(file);
}

/** Job, films and proof of every example, or of those named, under out/examples/. */
export async function examples(args) {
  await install();
  const { build } = await import('./build.mjs');
  await build({ only: 'command' });
  const kickflat = async (...words) => {
    const { status, output } = await run(process.execPath, [join(ROOT, 'dist/cli.mjs'), ...words], {
      quiet: true,
    });
    if (status !== 0) throw new Refusal(`“kickflat ${words.join(' ')}” ended with ${status}.\n${output}`);
  };
  const names = args.filter((arg) => !arg.startsWith('--'));
  for (const { name, art, says, options } of EXAMPLES) {
    if (names.length > 0 && !names.includes(name)) continue;
    const folder = join(ROOT, 'out', 'examples', name);
    // Made anew each time: `new` never replaces a job.
    await rm(folder, { recursive: true, force: true });
    await mkdir(folder, { recursive: true });
    const toned = options.includes('--method');
    const file = join(folder, `${name}.${toned ? 'png' : 'svg'}`);
    if (toned) await picture(art(), file);
    else await writeFile(file, art());
    const job = join(folder, `${name}.kickflat`);
    await kickflat('new', '--art', file, '--fit', 'cover', ...options, '--out', job);
    await kickflat('proof', job, '--out', join(folder, 'proof.png'));
    await kickflat('films', job, '--out', join(folder, 'films'));
    process.stdout.write(`out/examples/${name}: ${says}\n`);
  }
}

if (isEntry(import.meta)) await main(() => examples(process.argv.slice(2)));
