import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import { allCommands } from '../../electron/commands/index.ts';
import { BIN, expectRefusal, kickflat, type Ran } from './runCli.ts';

/** Three flat inks on bare wood, 760 × 180 mm, drawn here. */
const ART = `<svg xmlns="http://www.w3.org/2000/svg" width="760mm" height="180mm" viewBox="0 0 760 180">
  <rect x="20" y="20" width="300" height="140" fill="#f2b632"/>
  <circle cx="420" cy="90" r="62" fill="#e8613c"/>
  <path d="M40 150L700 40L720 130Z" fill="#1b2440"/></svg>`;
const CREST = `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><ellipse cx="40" cy="30" rx="38" ry="28" fill="#2f8f83"/></svg>`;

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-cli-'));
  writeFileSync(join(dir, 'art.svg'), ART);
  writeFileSync(join(dir, 'crest.svg'), CREST);
  const blank = { width: 40, height: 30, channels: 4 as const, background: { r: 9, g: 9, b: 9, alpha: 0 } };
  writeFileSync(join(dir, 'clear.png'), await sharp({ create: blank }).png().toBuffer());
  writeFileSync(
    join(dir, 'plain.png'),
    await sharp({ create: { ...blank, background: '#204060' } })
      .png()
      .toBuffer(),
  );
  // Builds what is out of date, so that no test pays for it.
  await kickflat(dir, ['--help']);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const run = (...args: string[]): Promise<Ran> => kickflat(dir, args);
const jsonOf = (ran: Ran) => {
  expect(ran.err).toBe('');
  expect(ran.status).toBe(0);
  return JSON.parse(ran.out) as Record<string, unknown>;
};
/** What lies in the folder, so that a refusal can be shown to have left it alone. */
const snapshot = () =>
  readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => `${path} ${readFileSync(path).toString('base64').slice(-40)}`);

const commands = await allCommands();

describe('help', () => {
  test('lists every command of the design with what the exit status means', async () => {
    const { out, status } = await run('--help');
    expect(status).toBe(0);
    for (const name of ['new', 'add', 'films', 'proof', 'check', 'press', 'deck', 'calc', 'studio'])
      expect(out).toMatch(new RegExp(`^  ${name}\\b`, 'm'));
    expect(out).toContain('Exit status');
    expect((await run()).out).toBe(out);
  });

  for (const { spec } of commands)
    test(`${spec.name} --help names every option, none twice, and shows an example`, async () => {
      const { out, status, err } = await run(spec.name, '--help');
      expect([status, err]).toEqual([0, '']);
      for (const { name } of spec.options) expect(out).toMatch(new RegExp(`^  --${name}\\b`, 'm'));
      expect(new Set(spec.options.map((o) => o.name)).size).toBe(spec.options.length);
      expect(out).toContain(`\n  kickflat ${spec.name} `);
      // Examples stand on one line each, so that a shell takes them as they are.
      for (const example of spec.examples) expect(out).toContain(`\n  ${example}\n`);
      for (const line of out.split('\n'))
        if (!line.startsWith('  kickflat ')) expect(line.length).toBeLessThanOrEqual(110);
    });
});

describe('usage', () => {
  const cases: readonly (readonly [string, readonly string[], RegExp])[] = [
    ['an unknown command', ['flims'], /no command “flims”.*Did you mean films/],
    ['an unknown option', ['films', 'a', '--shet', 'a4'], /no option --shet.*--sheet/],
    ['a short option', ['films', '-o', 'x'], /no option -o/],
    ['an option without its value', ['films', 'a', '--out'], /--out needs a value/],
    ['an option twice', ['films', 'a', '--dpi', '600', '--dpi', '600'], /twice/],
    ['a switch with a value', ['films', 'a', '--masks=yes'], /takes no value/],
    ['a missing job', ['films', '--out', 'x'], /needs JOB/],
    ['one word too many', ['check', 'a', 'b'], /“b”/],
    ['no art', ['new', '--out', 'x.kickflat'], /No art/],
    ['an unknown deck', ['new', '--art', 'art.svg', '--deck', 'popsicle-8.2'], /no deck.*popsicle-8.25/],
    ['an unknown ink', ['new', '--art', 'art.svg', '--inks', 'coral,blue'], /“coral” is not an ink/],
    ['no inks', ['new', '--art', 'art.svg', '--inks', '0'], /--inks must be 1 to 24/],
    ['an ink twice', ['new', '--art', 'art.svg', '--inks', '#ffffff=a,#FFF=b'], /named twice/],
    ['an unknown veneer', ['new', '--art', 'art.svg', '--veneer', 'plumb'], /no veneer.*plum/],
    ['an unknown method', ['new', '--art', 'art.svg', '--method', 'spott'], /spot/],
    ['art of no dpi', ['new', '--art', 'plain.png', '--art-dpi', '0'], /--art-dpi must be/],
    ['a negative trap', ['new', '--art', 'art.svg', '--trap', '-1mm'], /--trap must be/],
    ['a trap that is no length', ['new', '--art', 'art.svg', '--trap', 'wide'], /--trap.*not a length/],
    ['art of unknown size', ['new', '--art', 'plain.png'], /states no size.*--art-dpi/],
    ['transparent art', ['new', '--art', 'clear.png', '--fit', 'cover'], /transparent/],
    ['an unknown calculator', ['calc', 'squeege'], /squeegee/],
    ['an option of another calculator', ['calc', 'reach', '--plies', '4'], /takes no --plies/],
    ['a blade wider than the deck', ['calc', 'squeegee', '--blade', '400mm'], /blade/],
  ];
  for (const [what, args, said] of cases)
    test(`${what} is one line with a mend, status 2, and nothing is written`, async () => {
      const before = snapshot();
      expectRefusal(await run(...args), 2, said);
      expect(snapshot()).toEqual(before);
    });

  const files: readonly (readonly [string, readonly string[], RegExp])[] = [
    ['art that is not there', ['new', '--art', 'none.svg'], /none\.svg.*does not exist/],
    ['a folder for art', ['new', '--art', '.'], /folder/],
    ['a job that is not there', ['check', 'none.kickflat'], /does not exist/],
    ['an unwritable target', ['new', '--art', 'art.svg', '--out', 'no/such/a.kickflat'], /does not exist/],
    ['a target under a file', ['new', '--art', 'art.svg', '--out', 'art.svg/a.kickflat'], /folder|exist/],
    ['a job that is there already', ['new', '--art', 'art.svg', '--out', 'art.svg'], /there already/],
  ];
  for (const [what, args, said] of files)
    test(`${what} is one line with a mend, status 3, and nothing is written`, async () => {
      const before = snapshot();
      expectRefusal(await run(...args), 3, said);
      expect(snapshot()).toEqual(before);
    });
});

describe('from art to films', () => {
  test('new finds the inks of flat art exactly and keeps its stated size', async () => {
    const made = jsonOf(
      await run('new', '--art', 'art.svg', '--inks', '3', '--out', 'job.kickflat', '--json'),
    );
    const inks = made['inks'] as { hex: string; pull: number }[];
    expect(inks.map((ink) => ink.hex).sort()).toEqual(['#1b2440', '#e8613c', '#f2b632']);
    expect(inks.map((ink) => ink.pull)).toEqual([1, 2, 3]);
    const file = unpackJob(readFileSync(join(dir, 'job.kickflat')));
    expect(file.ok).toBe(true);
    if (!file.ok) return;
    const [piece] = file.value.job.faces.bottom.art;
    expect([piece?.width, piece?.height]).toEqual([expect.closeTo(760, 6), expect.closeTo(180, 6)]);
    expect(Buffer.from(file.value.art.get(piece?.hash ?? '') ?? []).toString()).toBe(ART);
  });

  test('the same art makes the same job, byte for byte, in another language and time zone', async () => {
    await run('new', '--art', 'art.svg', '--inks', '3', '--out', 'again.kickflat');
    const other = await kickflat(dir, ['new', '--art', 'art.svg', '--inks', '3', '--out', 'tokyo.kickflat'], {
      LANG: 'tr_TR.UTF-8',
      LC_ALL: 'tr_TR.UTF-8',
      TZ: 'Asia/Tokyo',
    });
    expect(other.status).toBe(0);
    expect(readFileSync(join(dir, 'again.kickflat')).equals(readFileSync(join(dir, 'job.kickflat')))).toBe(
      true,
    );
    expect(readFileSync(join(dir, 'tokyo.kickflat')).equals(readFileSync(join(dir, 'job.kickflat')))).toBe(
      true,
    );
  });

  test('named inks, a base, a trap in inches, a veneer and a fit are kept', async () => {
    const ran = await run(
      'new',
      '--art',
      'art.svg',
      '--inks',
      '#f2b632=Sun,#e8613c=Coral,#1b2440=Night',
      '--base',
      '--trap',
      '1/64in',
      '--veneer',
      '#6e4058',
      '--fit',
      'contain',
      '--wrap',
      'plan',
      '--deck',
      'popsicle-8.5',
      '--out',
      'named',
    );
    expect([ran.status, ran.err]).toEqual([0, '']);
    const file = unpackJob(readFileSync(join(dir, 'named.kickflat')));
    if (!file.ok) throw new Error(file.reason);
    const { job } = file.value;
    const { inks, traps, art } = job.faces.bottom;
    expect(inks.map(({ name, role, needsBase }) => [name, role, needsBase])).toEqual([
      ['Base white', 'base', []],
      ['Sun', 'colour', 'all'],
      ['Coral', 'colour', 'all'],
      ['Night', 'colour', []],
    ]);
    expect(traps.width).toBeCloseTo(25.4 / 64, 9);
    expect(job.veneers.map((v) => v.hex)).toEqual(['#6e4058']);
    expect(art[0]?.wrap).toBe('plan');
    expect(job.deck.width).toBeCloseTo(8.5 * 25.4, 1);
  });

  test('add puts a drawing on the top and keeps the job before it as a backup', async () => {
    const before = readFileSync(join(dir, 'job.kickflat'));
    const made = jsonOf(await run('add', 'job.kickflat', '--face', 'top', '--art', 'crest.svg', '--json'));
    expect(made['face']).toBe('top');
    expect(readFileSync(join(dir, 'job.kickflat.bak')).equals(before)).toBe(true);
    const file = unpackJob(readFileSync(join(dir, 'job.kickflat')));
    expect(file.ok && file.value.job.faces.top.inks.map((ink) => ink.hex)).toEqual(['#2f8f83']);
    expect(readdirSync(dir).filter((name) => name.includes('lock'))).toEqual([]);
  });

  test('films writes its files whole, the same twice, with masks of 1 bit at the asked dpi', async () => {
    const made = jsonOf(
      await run(
        'films',
        'job.kickflat',
        '--out',
        'deep/films',
        '--dpi',
        '150',
        '--sheet',
        'a4',
        '--masks',
        '--composite',
        '--json',
      ),
    );
    const names = readdirSync(join(dir, 'deep', 'films')).sort();
    expect((made['files'] as { name: string }[]).map((f) => f.name).sort()).toEqual(names);
    for (const name of ['films.pdf', 'films.json', 'assembly.pdf', 'separations.pdf'])
      expect(names).toContain(name);
    expect(names.filter((name) => /^mask-bottom-[123]-.+\.png$/.test(name))).toHaveLength(3);
    expect(names.filter((name) => /^separation-bottom-[123]-.+\.png$/.test(name))).toHaveLength(3);
    const mask = await sharp(
      join(dir, 'deep', 'films', names.find((n) => n.startsWith('mask-')) as string),
    ).metadata();
    expect([mask.bitsPerSample, mask.channels, mask.density]).toEqual([1, 1, 150]);
    const manifest = JSON.parse(readFileSync(join(dir, 'deep', 'films', 'films.json'), 'utf8')) as Record<
      string,
      unknown
    >;
    expect(manifest).toMatchObject({ version: 1, dpi: 150, sheet: { name: 'a4', width: 210, height: 297 } });
    const ran = await run(
      'films',
      'job.kickflat',
      '--out',
      'again',
      '--dpi',
      '150',
      '--sheet',
      'a4',
      '--masks',
      '--composite',
    );
    expect([ran.status, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('Written to again');
    for (const name of names)
      expect(
        readFileSync(join(dir, 'again', name)).equals(readFileSync(join(dir, 'deep', 'films', name))),
        name,
      ).toBe(true);
  });

  const bad: readonly (readonly [string, readonly string[], 2 | 3, RegExp])[] = [
    ['no folder', [], 2, /--out/],
    [
      'a sheet smaller than its margins',
      ['--out', 'x', '--sheet', '50x50', '--printer-margin', '25'],
      2,
      /leave nothing/,
    ],
    ['an unknown sheet', ['--out', 'x', '--sheet', 'leter'], 2, /letter/],
    ['a sheet of no size', ['--out', 'x', '--sheet', '0x0'], 2, /sheet/],
    ['no dpi', ['--out', 'x', '--dpi', '0'], 2, /--dpi must be/],
    ['a margin below nothing', ['--out', 'x', '--printer-margin', '-1'], 2, /--printer-margin must be/],
    ['a file for a folder', ['--out', 'art.svg'], 3, /is a file/],
    ['a folder with other files', ['--out', '.'], 3, /other files/],
  ];
  for (const [what, args, status, said] of bad)
    test(`films to ${what} is refused, and what is there stays`, async () => {
      const before = snapshot();
      expectRefusal(await run('films', 'job.kickflat', ...args), status, said);
      expect(snapshot()).toEqual(before);
    });

  test('films that are stopped end with nothing written and nothing left', async () => {
    const before = snapshot();
    const child = spawn(
      process.execPath,
      [BIN, 'films', 'job.kickflat', '--out', 'stopped', '--dpi', '600'],
      { cwd: dir },
    );
    let err = '';
    child.stderr.on('data', (chunk: Buffer) => {
      err += chunk.toString();
    });
    const ended = new Promise((resolve) => child.once('close', resolve));
    await new Promise((resolve) => setTimeout(resolve, 1500));
    child.kill('SIGINT');
    const status = await ended;
    expect(status).toBe(130);
    expect(err).toMatch(/^kickflat: Stopped[^\n]*\n$/);
    expect(snapshot()).toEqual(before);
  });

  test('proof shows the deck on a veneer; the same seed wanders the same way', async () => {
    const made = jsonOf(
      await run('proof', 'job.kickflat', '--veneer', 'teal', '--dpi', '40', '--out', 'proof.png', '--json'),
    );
    const { width, height } = await sharp(join(dir, 'proof.png')).metadata();
    expect([made['width'], made['height']]).toEqual([width, height]);
    // About 840 × 210 mm at 40 dpi.
    expect(width).toBeGreaterThan(1200);
    expect(width / height).toBeGreaterThan(3.4);
    const wander = ['--misregister', '1mm', '--dpi', '40'];
    await run('proof', 'job.kickflat', ...wander, '--seed', '5', '--out', 'p1.png');
    await run('proof', 'job.kickflat', ...wander, '--seed', '5', '--out', 'p2.png');
    await run('proof', 'job.kickflat', ...wander, '--seed', '6', '--out', 'p3.png');
    const [a, b, c] = ['p1.png', 'p2.png', 'p3.png'].map((name) => readFileSync(join(dir, name)));
    expect(a?.equals(b as Buffer)).toBe(true);
    expect(a?.equals(c as Buffer)).toBe(false);
    expectRefusal(await run('proof', 'job.kickflat', '--out', 'proof.jpg'), 2, /PNG/);
    expectRefusal(
      await run('proof', 'job.kickflat', '--colourway', 'blue', '--out', 'x.png'),
      2,
      /colourway/,
    );
  });

  test('check prints what, where and what to do; JSON agrees; the status says whether there are errors', async () => {
    const ran = await run('check', 'job.kickflat', '--json');
    const found = JSON.parse(ran.out) as {
      errors: number;
      problems: { severity: string; what: string; mend: string }[];
    };
    expect(ran.status).toBe(found.errors > 0 ? 1 : 0);
    expect(found.problems.filter((p) => p.severity === 'error')).toHaveLength(found.errors);
    for (const { what, mend } of found.problems) expect([what, mend].every((s) => s.length > 5)).toBe(true);
    // A job without inks for its art can not be printed.
    const text = await run('check', 'job.kickflat');
    for (const { what } of found.problems) expect(text.out).toContain(what);
  });

  test('deck tells where a point lands; the middle stays the middle', async () => {
    const middle = jsonOf(await run('deck', 'job.kickflat', '--point', '0,0', '--json'));
    expect(middle).toEqual({
      plan: { x: 0, y: 0 },
      surface: { s: 0, t: 0 },
      film: { u: 0, v: 0 },
      height: 0,
    });
    const out = jsonOf(await run('deck', 'job.kickflat', '--point', '-14in,-2 1/2"', '--json')) as {
      plan: { x: number; y: number };
      surface: { s: number; t: number };
    };
    expect(out.plan.x).toBeCloseTo(-355.6, 6);
    // Along the bent tail is longer than its shadow.
    expect(out.surface.s).toBeLessThan(-355.6);
    const back = jsonOf(
      await run(
        'deck',
        'job.kickflat',
        '--point',
        `${out.surface.s},${out.surface.t}`,
        '--from',
        'surface',
        '--json',
      ),
    ) as { plan: { x: number; y: number } };
    expect(back.plan.y).toBeCloseTo(-63.5, 6);
    expectRefusal(await run('deck', 'job.kickflat', '--point', '1,2,3'), 2, /not a point/);
    expectRefusal(await run('deck', 'job.kickflat', '--point', '0,900'), 2, /beyond the rail/);
    expectRefusal(await run('deck', 'job.kickflat'), 2, /No point/);
  });

  test('deck draws where a flat film can not lie true, as PNG', async () => {
    const { misfit } = jsonOf(await run('deck', 'job.kickflat', '--misfit', 'heat.png', '--json')) as {
      misfit: { file: string; worstMisfit: { mm: number }; worstStretch: { value: number } };
    };
    // A usual deck's rails are some mm too short in the kicks: h·θ, 9.5 mm × 0.35, shared between centre and rails.
    expect(Math.abs(misfit.worstMisfit.mm)).toBeGreaterThan(0.5);
    expect(Math.abs(misfit.worstMisfit.mm)).toBeLessThan(3.3);
    const { data, info } = await sharp(readFileSync(join(dir, 'heat.png')))
      .raw()
      .toBuffer({ resolveWithObject: true });
    const at = (fx: number, fy: number) => {
      const o =
        (Math.round(fy * (info.height - 1)) * info.width + Math.round(fx * (info.width - 1))) * info.channels;
      return [data[o]!, data[o + 1]!, data[o + 2]!] as const;
    };
    // Paper at the middle, where the film lies true; orange along a kick's middle; blue at its rails.
    expect(at(0.5, 0.5)).toEqual([250, 246, 238]);
    const [r, , b] = at(0.95, 0.52);
    expect(r - b).toBeGreaterThan(60);
    const [rr, , bb] = at(0.87, 0.1);
    expect(bb - rr).toBeGreaterThan(60);
    expectRefusal(await run('deck', 'job.kickflat', '--misfit', 'heat.jpg'), 2, /PNG/);
  });
});

describe('calc', () => {
  test('reach takes every measure of the deck in mm and degrees, says them back, and refuses what no wood can be', async () => {
    const reachOf = async (...more: string[]) =>
      jsonOf(await run('calc', 'reach', ...more, '--json')) as {
        inputs: Record<string, unknown>;
        result: { nose: { reach: number; growth: number; toTip: boolean } };
        assumptions: string[];
      };
    const steep = await reachOf(
      '--nose-angle',
      '30',
      '--wheelbase',
      '14.5in',
      '--max-stretch',
      '1%',
      '--frame',
      '1100',
    );
    expect(steep.inputs).toMatchObject({
      noseAngleDeg: 30,
      wheelbase: expect.closeTo(368.3, 9),
      maxStretch: 0.01,
      frameLength: 1100,
      tailAngleDeg: 20,
      thickness: 11.1,
    });
    expect(steep.assumptions[0]).toMatch(/not given are those of popsicle-8.25/);
    // The reach ends just where the mesh has stretched as much as it may; a gentler nose is reached further out.
    expect(steep.result.nose.growth).toBeCloseTo(0.01, 6);
    const gentle = await reachOf(
      '--nose-angle',
      '15',
      '--wheelbase',
      '14.5in',
      '--max-stretch',
      '1%',
      '--frame',
      '1100',
    );
    expect(gentle.result.nose.reach).toBeGreaterThan(steep.result.nose.reach);
    for (const [args, sentence] of [
      [['reach', '--nose-radius', '5'], /would fold/],
      [['reach', '--depth', '150'], /150 mm deep/],
      [['squeegee', '--depth', '150'], /150 mm deep/],
      [['reach', '--tail-start', '290'], /beyond its tip/],
      [['reach', '--nose-length', '2'], /./],
      [['reach', '--nose-angle', '75'], /0 to 60/],
      [['reach', '--max-stretch', '7'], /share/],
      [['growth', '--wheelbase', '1200', '--holes-along', '2'], /run into each other/],
    ] as const)
      expectRefusal(await run('calc', ...args), 2, sentence);
  });

  test('squeegee by hand: a 200 mm deck with 10 mm concave', async () => {
    const found = jsonOf(
      await run(
        'calc',
        'squeegee',
        '--width',
        '200',
        '--depth',
        '10',
        '--thickness',
        '11',
        '--flat-width',
        '0',
        '--blade',
        '160',
        '--face',
        'top',
        '--plies',
        '4',
        '--json',
      ),
    ) as {
      inputs: Record<string, unknown>;
      result: { radius: number; rise: number; formRadius: number };
      formula: string;
      assumptions: string[];
    };
    // Sagitta: ρ = w²/(8d) + d/2 = 500 + 5; rise = ρ − √(ρ² − 80²). Worked by hand.
    expect(found.result.radius).toBeCloseTo(505, 9);
    expect(found.result.rise).toBeCloseTo(505 - Math.sqrt(505 ** 2 - 80 ** 2), 9);
    expect(found.result.formRadius).toBeCloseTo(505 * (1 - 1 / 16), 9);
    expect(found.inputs['blade']).toBe(160);
    expect(found.formula).toContain('ρ');
    expect(found.assumptions.length).toBeGreaterThan(0);
  });

  test('growth and reach work on a template’s own measurements and read well', async () => {
    for (const name of ['growth', 'reach', 'squeegee']) {
      const ran = await run('calc', name);
      expect([ran.status, ran.err]).toEqual([0, '']);
      expect(ran.out).toMatch(/mm/);
      expect(ran.out).not.toMatch(/NaN|undefined|null|\d\.\d{6}/);
    }
  });
});
