import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
import { deckTemplate } from '../../core/deck/index.ts';
import { hashOf, inkFrom, type Job, newJob, packJob, placeArt } from '../../core/job/index.ts';
import { asTolerance, learnedTolerance, loggedScreens } from '../../core/loggedRegister.ts';
import { printAll } from '../../core/printInk.ts';
import { blankMask, type Mask, union } from '../../core/raster/index.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { registerCurve } from '../../core/trap/index.ts';
import {
  type CurveWish,
  type TriedFace,
  trialCurve,
  trialPart,
  tryTraps,
  widthsFor,
} from '../../core/trapTrials.ts';
import { type Context, readOptions } from '../../electron/commands/index.ts';
import { run, spec } from '../../electron/commands/traps.ts';
import { nodeFiles, Stopped, sharpCodec, workerPool } from '../../electron/host/index.ts';
import { randomLabels, separationsOf } from '../core/trap/labelMap.ts';

const WORKER = fileURLToPath(new URL('../../dist/host/worker.cjs', import.meta.url));
beforeAll(() => (build as (o: object) => Promise<unknown>)({ only: 'command' }));

const DPI = 25.4;
const blank = newJob({ name: 'Trials', deck: deckTemplate('popsicle-8.25')! });
const base = inkFrom({ name: 'Base white', hex: '#ffffff', role: 'base' }, []);
const yellow = inkFrom({ name: 'Yellow', hex: '#f2b632', needsBase: 'all' }, [base]);
const coral = inkFrom({ name: 'Coral', hex: '#e8613c' }, [base, yellow]);
const settings = { ...blank.faces.bottom, inks: [base, yellow, coral] };

/** Random regions of three inks in memory that threads share. */
const tried = (): TriedFace => ({
  settings,
  dpi: DPI,
  separations: separationsOf(randomLabels(400, 160, 3, 77)).map((mask) => {
    const shared = blankMask(mask.width, mask.height, true);
    shared.data.set(mask.data);
    return shared;
  }),
});
const wish: CurveWish = {
  toleranceMm: 3,
  trials: 130,
  seed: 5,
  widthsMm: [4, 0, 2],
  limitMm2: 60,
};

describe('trials on several threads', () => {
  test('1, 2 and 4 threads give the curve that one loop gives', async () => {
    const face = tried();
    const wanted = face.separations.reduce((all: Mask, mask) => union(all, mask), blankMask(400, 160));
    const curve = registerCurve({
      ...wish,
      wanted,
      printsAt: (width) =>
        printAll(face.separations, { ...settings, traps: { ...settings.traps, width } }, DPI),
      limit: { areaMm2: wish.limitMm2 },
      dpi: DPI,
      base: { place: 0, own: face.separations[0]! },
    });
    expect(curve.points[0]!.areaMm2.p95).toBeGreaterThan(100);
    for (const count of [1, 2, 4]) {
      const pool = workerPool(WORKER, count);
      const said: number[] = [];
      const made = await trialCurve(
        wish,
        pool.count,
        (part) => pool.run('trialPart', { face, part }),
        (share) => said.push(share),
      );
      await pool.close();
      expect(made).toEqual({ ok: true, value: curve });
      expect(said.at(-1)).toBe(1);
      expect(said).toEqual([...said].sort((a, b) => a - b));
      expect(said.length).toBeGreaterThan(5);
    }
  });

  test('a stopped run ends, and its threads with it', async () => {
    const pool = workerPool(WORKER, 2);
    const abort = { aborted: false };
    const run = trialCurve(
      { ...wish, trials: 5000 },
      2,
      (part) => pool.run('trialPart', { face: tried(), part }, abort),
      () => {
        abort.aborted = true;
      },
      abort,
    ).catch((error: unknown) => error);
    const ended = await run;
    expect(ended instanceof Stopped || (ended as { ok: boolean }).ok === false).toBe(true);
    await pool.close();
  });

  test('an order of parts other than theirs changes nothing', async () => {
    const face = tried();
    const waits: (() => void)[] = [];
    const forward = await trialCurve(wish, 1, async (part) => trialPart(face, part));
    const late = trialCurve(
      wish,
      3,
      (part) => new Promise((resolve) => waits.push(() => resolve(trialPart(face, part)))),
    );
    const timer = setInterval(() => waits.pop()?.(), 1);
    expect(await late).toEqual(forward);
    clearInterval(timer);
  });

  test('widths run from none to twice the tolerance', () => {
    expect(widthsFor(0.5)).toEqual([0, 0.13, 0.25, 0.38, 0.5, 0.63, 0.75, 0.88, 1]);
    expect(widthsFor(0.01).at(-1)).toBe(0.4);
  });
});

describe('the job’s own log', () => {
  const line = (inkId: string, along?: number, across?: number) => ({
    face: 'bottom' as const,
    inkId,
    kind: 'test' as const,
    decks: 0,
    words: '',
    ...(along === undefined ? {} : { along }),
    ...(across === undefined ? {} : { across }),
  });
  const withLog = (log: Job['press']['log']): Job => ({ ...blank, press: { ...blank.press, log } });

  test('readings are gathered screen by screen; lines without one, or half of one, are passed over', () => {
    const job = withLog([
      line('coral', 0.1, 0.2),
      line('yellow', 1, 1),
      line('coral'),
      line('coral', 0.3),
      line('coral', 0.3, 0.2),
    ]);
    expect(loggedScreens(job)).toEqual([
      {
        face: 'bottom',
        inkId: 'coral',
        readings: [
          { dx: 0.1, dy: 0.2 },
          { dx: 0.3, dy: 0.2 },
        ],
      },
      { face: 'bottom', inkId: 'yellow', readings: [{ dx: 1, dy: 1 }] },
    ]);
    // 0.1 either side of the mean, widened by √2.
    expect(learnedTolerance(job)!.toleranceMm).toBeCloseTo(0.1 * Math.SQRT2, 12);
    expect(asTolerance(learnedTolerance(job)!)).toBe(0.15);
    // An earlier run's screen sat elsewhere; it strayed as much.
    const log = [line('coral', 5.1, 0), line('coral', 5.3, 0)];
    const run = { name: 'Spring', lots: [], log, registerTests: [], finished: {} };
    const both = learnedTolerance({ ...job, press: { ...job.press, earlier: [run] } })!;
    expect(both).toMatchObject({ readings: 4, screens: 2 });
    expect(both.toleranceMm).toBeCloseTo(0.1 * Math.SQRT2, 12);
    expect(learnedTolerance(withLog([]))).toBeNull();
    expect(learnedTolerance(blank)).toBeNull();
  });
});

describe('kickflat traps', () => {
  const ART = `<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="60mm" viewBox="0 0 120 60">
    <rect width="60" height="60" fill="#f2b632"/><rect x="60" width="60" height="60" fill="#e8613c"/></svg>`;
  const codec = sharpCodec();

  async function made(log: Job['press']['log']) {
    const bytes = new TextEncoder().encode(ART);
    const probe = await codec.probe(bytes, 'two.svg');
    if (!probe.ok) throw new Error(probe.reason);
    const inks = [inkFrom({ name: 'Yellow', hex: '#f2b632' }, [])];
    inks.push(inkFrom({ name: 'Coral', hex: '#e8613c' }, inks));
    const job: Job = {
      ...blank,
      faces: { ...blank.faces, bottom: { ...blank.faces.bottom, inks } },
      press: { ...blank.press, log },
    };
    const facts = { ...probe.value, name: 'two.svg', hash: hashOf(bytes), ground: null };
    const placed = placeArt(job, 'bottom', facts, { fit: 'actual', wrap: 'surface', artDpi: null });
    if (!placed.ok) throw new Error(placed.reason);
    return packJob({ job: placed.value.job, art: new Map([[facts.hash, bytes]]), extra: new Map() });
  }

  async function traps(log: Job['press']['log'], ...args: string[]) {
    const dir = mkdtempSync(join(tmpdir(), 'kickflat-traps-'));
    const path = join(dir, 'two.kickflat');
    writeFileSync(path, await made(log));
    let out = '';
    const voice = { out: (text: string) => (out += text), err: () => undefined, terminal: false };
    const given = readOptions(spec, [path, ...args]);
    if (!given.ok) throw new Error(given.reason);
    const context = { voice, codec, files: nodeFiles(), workers: () => inlineWorkers, abort: {} };
    const ended = await run(given.value, context as unknown as Context);
    rmSync(dir, { recursive: true });
    return { ended, out };
  }
  const log = [
    {
      face: 'bottom' as const,
      inkId: 'coral',
      kind: 'test' as const,
      decks: 0,
      words: '',
      along: 0.2,
      across: 0,
    },
    {
      face: 'bottom' as const,
      inkId: 'coral',
      kind: 'test' as const,
      decks: 0,
      words: '',
      along: 0.6,
      across: 0,
    },
  ];

  test('says the pairs, what the log teaches, the gaps by width and the width to take', async () => {
    const { ended, out } = await traps(log, '--tolerance', 'log', '--trials', '40', '--accept', '1');
    expect(ended).toEqual({ ok: true, value: 0 });
    expect(out).toContain('Yellow spreads 0.5 mm under Coral.');
    // 0.2 either side of the mean, widened by √2, to a hundredth upwards.
    expect(out).toContain('2 readings of 1 screen stray by up to 0.29 mm');
    expect(out).toMatch(/Every pull straying by up to 0\.29 mm/);
    // Two pulls part by at most twice the tolerance.
    expect(Number(/Take ([\d.]+) mm/.exec(out)?.[1])).toBeLessThanOrEqual(0.58);
    expect(Number(/Take ([\d.]+) mm/.exec(out)?.[1])).toBeGreaterThan(0.2);
  });

  test('as JSON, with widths of one’s own; no trials, no curve', async () => {
    const { out } = await traps(undefined, '--widths', '1mm,0,0.2in', '--trials', '20', '--json');
    const said = JSON.parse(out);
    expect(said.points.map((p: { widthMm: number }) => p.widthMm)).toEqual([0, 1, 5.08]);
    expect(said).toMatchObject({ face: 'bottom', toleranceMm: 0.5, learned: null });
    expect(JSON.parse((await traps(undefined, '--trials', '0', '--json')).out).points).toBeUndefined();
  });

  test.each([
    [['--tolerance', 'log'], /holds no screen that was read twice/],
    [['--tolerance', '40mm'], /--tolerance must be/],
    [['--widths', '0,x'], /--widths:/],
    [['--widths', '0,12mm'], /12mm is not tried/],
    [['--trials', '9999'], /--trials must be/],
    [['--face', 'top', '--trials', '1'], /top has no art/],
  ])('%s is refused in a sentence', async (args, reason) => {
    const { ended, out } = await traps(undefined, ...args);
    expect(ended).toMatchObject({ ok: false, reason: expect.stringMatching(reason) });
    expect(out).toBe('');
  });

  test('a face in dots has no traps to try', async () => {
    const dots = { ...blank.faces.bottom, method: 'index' as const };
    const job = { ...blank, faces: { ...blank.faces, bottom: dots } };
    const tools = { art: new Map(), codec, workers: inlineWorkers };
    expect(await tryTraps(job, 'bottom', wish, tools)).toMatchObject({ ok: false, kind: 'input' });
  });
});
