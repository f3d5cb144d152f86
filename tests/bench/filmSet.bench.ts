import { execFileSync, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as esbuild } from 'esbuild';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
// @ts-expect-error plain JavaScript without types
import { ONE_ARENA, SMALL_NURSERY } from '../../build/leanMemory.mjs';
import type { FilmSetCost } from './filmSetProcess.ts';
import { median, table } from './table.ts';

/**
 * The demonstration's five-ink bottom from its art to films.pdf, assembly.pdf and films.json, and from decoded art to films.pdf
 * alone: by resolution, by stage, by number of inks, and the command line as a whole process. Each in a fresh process, started as
 * the program is, two threads. `npm run bench filmSet`; `--quick` leaves out 1200 dpi and takes each figure once; `--sizes`,
 * `--inks` and `--cold` take that part alone.
 */
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const quick = process.argv.includes('--quick');
const RUNS = quick ? 1 : 5;
const PARTS = ['sizes', 'inks', 'cold'] as const;
const only = PARTS.filter((part) => process.argv.includes(`--${part}`));
const wanted = (part: (typeof PARTS)[number]) => only.length === 0 || only.includes(part);
const BUNDLE = join(ROOT, 'dist', `filmSetBench.${process.pid}.mjs`);

const seconds = (ms: number) => (ms / 1000).toFixed(1);

const WHAT = {
  decoded: 'from decoded art, threads awake, films.pdf',
  asleep: 'from decoded art, threads started within, films.pdf',
  art: 'from its SVG, all files',
};
type From = keyof typeof WHAT;

function once(dpi: number, inks: number, from: From): Promise<FilmSetCost> {
  return new Promise((resolve, reject) => {
    const env = { ...process.env, ...ONE_ARENA };
    const child = fork(BUNDLE, [ROOT, String(dpi), String(inks), from], { execArgv: SMALL_NURSERY, env });
    let cost: FilmSetCost | null = null;
    child.on('message', (message: FilmSetCost) => {
      cost = message;
    });
    child.once('close', (status) =>
      cost ? resolve(cost) : reject(new Error(`The process ended with status ${status} and told nothing.`)),
    );
  });
}

async function several(dpi: number, inks: number, from: From, runs = RUNS): Promise<FilmSetCost[]> {
  const costs: FilmSetCost[] = [];
  for (let i = 0; i < runs; i++) costs.push(await once(dpi, inks, from));
  return costs;
}

const row = (name: string, costs: readonly FilmSetCost[]): string[] => [
  name,
  seconds(median(costs.map((cost) => cost.wallMs))),
  seconds(median(costs.map((cost) => cost.cpuMs))),
  Math.max(...costs.map((cost) => cost.peakMb)).toFixed(0),
  median(costs.map((cost) => cost.load)).toFixed(1),
];
const HEAD = ['', 'wall, s', 'processors, s', 'peak, MB', 'load'];

/** The command line from its start to its end, with a job it has never seen. */
function cold(dpi: number): number {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-bench-'));
  try {
    const job = join(dir, 'night-heron.kickflat');
    const art = join(ROOT, 'build', 'demo', 'night-heron.svg');
    const cli = join(ROOT, 'build', 'kickflat.mjs');
    const run = (args: string[]) => execFileSync(process.execPath, [cli, ...args], { stdio: 'ignore' });
    run(['new', '--art', art, '--inks', '5', '--deck', 'popsicle-8.25', '--out', job]);
    const from = performance.now();
    run(['films', job, '--out', join(dir, 'films'), '--dpi', String(dpi)]);
    return performance.now() - from;
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

await (build as (options: object) => Promise<unknown>)({ only: 'command' });
await esbuild({
  absWorkingDir: ROOT,
  entryPoints: ['tests/bench/filmSetProcess.ts'],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  external: ['sharp'],
  outfile: BUNDLE,
  logLevel: 'silent',
  loader: { '.svg': 'text' },
  banner: {
    js: "import { createRequire as benchRequire } from 'node:module'; const require = benchRequire(import.meta.url);",
  },
});
try {
  const say = (text: string) => process.stdout.write(`${text}\n\n`);
  const sizes = quick ? [300, 600] : [300, 600, 1200];
  if (wanted('sizes')) {
    const rows: string[][] = [];
    let stages: FilmSetCost['stages'] = {};
    for (const dpi of sizes)
      for (const from of ['decoded', 'asleep', 'art'] as const) {
        const costs = await several(dpi, 5, from);
        if (dpi === 600) stages = costs[0]?.stages ?? {};
        rows.push(row(`${dpi} dpi, ${WHAT[from]}`, costs));
      }
    say(table([HEAD, ...rows]));
    const sorted = Object.entries(stages).sort((a, b) => b[1] - a[1]);
    say(
      table([
        ['stage, 600 dpi, from its SVG', 'waited for, s'],
        ...sorted.map(([name, ms]) => [name, seconds(ms)]),
      ]),
    );
  }
  if (wanted('inks')) {
    const byInks: string[][] = [];
    for (const dpi of sizes)
      for (let inks = 1; inks <= 6; inks++)
        byInks.push(
          row(`${inks} ${inks === 1 ? 'ink' : 'inks'}, ${dpi} dpi`, await several(dpi, inks, 'art', 1)),
        );
    say(table([HEAD, ...byInks]));
  }
  if (wanted('cold')) {
    const starts = Array.from({ length: RUNS }, () => cold(600));
    say(
      table([
        ['command line, 600 dpi, cold', 'load'],
        [`${seconds(median(starts))} s`, (loadavg()[0] as number).toFixed(1)],
      ]),
    );
  }
} finally {
  rmSync(BUNDLE, { force: true });
}
