import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { ROOT } from './root.mjs';

const exec = promisify(execFile);
/** Points across; the README shows them at half of that, four beside each other. */
const WIDE = 440;
/** Pages of the demonstration's papers that show what they are for: the middle of the key's film, and its joints. */
const PAGES = [
  { name: 'film-sheet', pdf: 'films/films.pdf', page: 23 },
  { name: 'assembly', pdf: 'films/assembly.pdf', page: 7 },
  { name: 'run-sheet', pdf: 'press/run-sheet.pdf', page: 1 },
];

/** Pictures for the README of what the demonstration makes, drawn by poppler from the papers themselves. */
export async function papers(out) {
  const sharp = (await import('sharp')).default;
  const dir = await mkdtemp(join(tmpdir(), 'kickflat-papers-'));
  const node = (...args) => exec(process.execPath, args, { cwd: dir, maxBuffer: 1e8 });
  const keep = async (name, png) => {
    await writeFile(
      join(out, `${name}.png`),
      await sharp(png)
        .resize(WIDE, Math.round(WIDE * 1.294), { fit: 'contain', background: '#ffffff' })
        .extend({ top: 1, bottom: 1, left: 1, right: 1, background: '#b9b2a6' })
        .png({ palette: true, colours: 64, effort: 10 })
        .toBuffer(),
    );
    process.stdout.write(`${name}.png\n`);
  };
  try {
    await node(join(ROOT, 'dist/demo.mjs'));
    for (const { name, pdf, page } of PAGES) {
      const at = String(page);
      const file = join(dir, name);
      await exec('pdftoppm', [
        '-r',
        '110',
        '-f',
        at,
        '-l',
        at,
        '-singlefile',
        '-png',
        join(dir, 'out', pdf),
        file,
      ]);
      await keep(name, await readFile(`${file}.png`));
    }
    const grid = join(dir, 'grid.png');
    const job = join(dir, 'out/night-heron.kickflat');
    await node(join(ROOT, 'dist/cli.mjs'), 'proof', job, '--grid', '--dpi', '40', '--out', grid);
    await keep('proof-grid', await readFile(grid));
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}
