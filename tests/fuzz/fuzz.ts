import { type ChildProcess, fork } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { makeBad } from '../fixtures/makeBad.ts';
import { bundled, TRIAL, WORKER } from './bundle.ts';
import { goodInputs, KINDS, type Kind } from './goodInputs.ts';
import type { ImportAnswer, ImportCall } from './importerProcess.ts';
import { BAIT_COLOUR } from './importInput.ts';
import { memoryOf } from './memory.ts';
import { mutate } from './mutate.ts';
import type { Bait } from './mutateText.ts';
import { chance } from './random.ts';

/** What issue and README promise of every input. */
export const MOST_MS = 10_000;
export const MOST_MEMORY = 1.5 * 1024 ** 3;

export interface Tally {
  readonly kind: string;
  tried: number;
  refused: number;
  imported: number;
  slowestMs: number;
  memory: number;
  readonly reasons: Map<string, number>;
}
export interface Trouble {
  readonly kind: string;
  /** Seed and number, with which `input` makes the same bytes again. */
  readonly input: string;
  readonly what: string;
  readonly bytes: Uint8Array;
}
export interface FuzzResult {
  readonly tallies: readonly Tally[];
  readonly troubles: readonly Trouble[];
  /** Requests that reached the address laid out as bait. */
  readonly requests: number;
  readonly strayFiles: readonly string[];
}

/** A refusal without the parts that differ from file to file, so that like reasons count together. */
const sortOf = (reason: string) =>
  reason
    .replace(/“[^”]*”/g, '“…”')
    .replace(/[^\s(]*\d[\d.,:+-]*/g, 'n')
    .slice(0, 80);

/** The process that imports; a new one is started whenever the last one had to be killed. */
function importer(entry: string, cwd: string) {
  let child: ChildProcess | null = null;
  let peak = 0;

  async function start(): Promise<ChildProcess> {
    const env = { ...process.env, TMPDIR: cwd, HOME: cwd, KICKFLAT_STATE: join(cwd, 'state') };
    const started = fork(entry, [TRIAL, WORKER], {
      cwd,
      env,
      serialization: 'advanced',
      execArgv: [],
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    child = started;
    await new Promise<void>((resolve, reject) => {
      started.once('message', () => resolve());
      started.once('exit', (code) => reject(new Error(`The importer did not start (${code}).`)));
    });
    started.removeAllListeners();
    return started;
  }

  return {
    async run(call: ImportCall): Promise<{ answer: ImportAnswer | string; memory: number }> {
      const at = child ?? (await start());
      peak = 0;
      const watch = setInterval(() => {
        peak = Math.max(peak, memoryOf(at.pid as number));
      }, 20);
      const answer = await new Promise<ImportAnswer | string>((resolve) => {
        const late = setTimeout(() => resolve('hung'), MOST_MS + 5000);
        const end = (value: ImportAnswer | string) => {
          clearTimeout(late);
          resolve(value);
        };
        at.once('message', (said: ImportAnswer) => end(said));
        at.once('exit', (code, signal) => end(`crashed with ${signal ?? `status ${code}`}`));
        at.send(call);
      });
      clearInterval(watch);
      at.removeAllListeners();
      if (typeof answer === 'string') this.close();
      return { answer, memory: Math.max(peak, typeof answer === 'string' ? 0 : answer.memory) };
    },
    /** Each kind starts with a process of its own: its memory is then its own too. */
    close() {
      child?.kill('SIGKILL');
      child = null;
    },
  };
}

function listen(hits: { count: number }): Promise<Server> {
  const server = createServer((_, response) => {
    hits.count++;
    response.end();
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}

interface Input {
  readonly name: string;
  readonly kind: Kind;
  readonly bytes: () => Uint8Array;
}

/** `perKind` mutations of every kind from `seed`, and the inputs made by hand. */
async function inputs(
  perKind: number,
  seed: number,
  kinds: readonly Kind[],
  byHand: boolean,
  bait: Bait,
): Promise<Input[]> {
  const good = await goodInputs();
  const list: Input[] = [];
  for (const kind of kinds)
    for (let n = 0; n < perKind; n++)
      list.push({
        name: `seed ${seed}, number ${n}`,
        kind,
        bytes: () => {
          const random = chance(Math.imul(seed, 7919) + n * 31 + KINDS.indexOf(kind) * 104_729);
          return mutate(kind, random.pick(good[kind]), random.pick(good[kind]), random, bait);
        },
      });
  if (byHand)
    for (const bad of makeBad()) {
      const ending = bad.fileName.split('.').at(-1) as string;
      const named = { jpg: 'jpeg', tif: 'tiff', ora: 'open raster' }[ending] ?? ending;
      const kind = bad.as === 'job' ? 'job' : KINDS.find((k) => k === named);
      if (!kind) throw new Error(`No importer is known for ${bad.fileName}.`);
      list.push({ name: `by hand, ${bad.name}`, kind, bytes: bad.bytes });
    }
  return list;
}

/** Tries the inputs one by one, each watched for time, memory, files and requests. */
export async function fuzz(options: {
  readonly perKind: number;
  readonly seed: number;
  readonly kinds?: readonly Kind[];
  readonly byHand?: boolean;
  readonly say?: (line: string) => void;
}): Promise<FuzzResult> {
  const { perKind, seed, kinds = KINDS, byHand = true, say = () => undefined } = options;
  const root = mkdtempSync(join(tmpdir(), 'kickflat-fuzz-'));
  // Three folders deep, so that names that climb still land where they are seen.
  const cwd = join(root, 'a', 'b', 'c');
  mkdirSync(cwd, { recursive: true });
  const file = join(cwd, 'secret.png');
  const [r, g, b] = BAIT_COLOUR;
  writeFileSync(
    file,
    await sharp({ create: { width: 64, height: 64, channels: 3, background: { r, g, b } } })
      .png()
      .toBuffer(),
  );
  const before = readFileSync(file);
  const hits = { count: 0 };
  const server = await listen(hits);
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const entry = await bundled('importerProcess');
  const process_ = importer(entry, cwd);
  const tallies = new Map<string, Tally>();
  const troubles: Trouble[] = [];
  try {
    let id = 0;
    let last = '';
    for (const input of await inputs(perKind, seed, kinds, byHand, { address, file })) {
      const kind = input.name.startsWith('by hand') ? 'by hand' : input.kind;
      if (kind !== last) {
        process_.close();
        say(kind);
      }
      last = kind;
      const tally: Tally = tallies.get(kind) ?? {
        kind,
        tried: 0,
        refused: 0,
        imported: 0,
        slowestMs: 0,
        memory: 0,
        reasons: new Map(),
      };
      tallies.set(kind, tally);
      const bytes = input.bytes();
      const { answer, memory } = await process_.run({ id: ++id, kind: input.kind, bytes });
      const bad = (what: string) => troubles.push({ kind, input: input.name, what, bytes });
      tally.tried++;
      tally.memory = Math.max(tally.memory, memory);
      if (memory > MOST_MEMORY) bad(`took ${Math.round(memory / 1048576)} MB`);
      if (typeof answer === 'string') {
        bad(answer);
        continue;
      }
      tally.slowestMs = Math.max(tally.slowestMs, answer.ms);
      if (answer.ms > MOST_MS) bad(`took ${Math.round(answer.ms)} ms`);
      for (const where of answer.reached) bad(`reached for ${where}`);
      const { ending } = answer;
      if (ending.end === 'threw') bad(ending.stack);
      else if (ending.wrong !== null) bad(ending.wrong);
      if (ending.end === 'refused') {
        tally.refused++;
        const sort = sortOf(ending.reason);
        tally.reasons.set(sort, (tally.reasons.get(sort) ?? 0) + 1);
      } else if (ending.end === 'imported') tally.imported++;
    }
    process_.close();
    const found = readdirSync(root, { recursive: true, withFileTypes: true })
      .filter((entry) => !entry.isDirectory())
      .map((entry) => entry.name);
    const stray = found.filter((name) => name !== 'secret.png');
    if (!readFileSync(file).equals(before)) stray.push('secret.png, changed');
    return { tallies: [...tallies.values()], troubles, requests: hits.count, strayFiles: stray };
  } finally {
    process_.close();
    server.close();
    rmSync(root, { recursive: true, force: true });
    rmSync(entry, { force: true });
  }
}
