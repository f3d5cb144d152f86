import { describe, expect, test } from 'vitest';
import { checkJob, type FaceFacts, type Problem } from '../../../core/check/index.ts';
import type { Job } from '../../../core/job/index.ts';
import { getBit } from '../../../core/raster/index.ts';
import {
  bar,
  blank,
  DPI,
  factsOf,
  HEIGHT,
  ink,
  inputOf,
  jobWith,
  piece,
  WIDTH,
  without,
} from './smallJob.ts';

const red = ink('Red', '#c02020');
const blue = ink('Blue', '#1b2440', { opacity: 0.97 });
/** A bold shape that nothing is wrong with. */
const bold = () => bar(blank(), 5, 5, 12, 10);

const codes = (job: Job, ...faces: FaceFacts[]) => checkJob(inputOf(job, ...faces)).map(({ code }) => code);
const only = (code: string, job: Job, ...faces: FaceFacts[]): Problem[] =>
  checkJob(inputOf(job, ...faces)).filter((problem) => problem.code === code);
const one = (code: string, job: Job, ...faces: FaceFacts[]): Problem => {
  const found = only(code, job, ...faces);
  expect(found.map((problem) => problem.code)).toEqual([code]);
  return found[0]!;
};
/** The raster point a problem points at. */
const pointOf = ({ at }: Problem) => ({
  x: Math.floor((at!.s + WIDTH / 2) * 20),
  y: Math.floor((HEIGHT / 2 - at!.t) * 20),
});

test('a sound job has no problems', () => {
  const job = jobWith([red]);
  expect(checkJob(inputOf(job, factsOf(job, [bold()])))).toEqual([]);
});

test('errors come first, then warnings, then notes, and every line says what and what to do', () => {
  const job = jobWith([red, blue]);
  const sheets = [{ ink: 'blue', fits: false, reason: 'It is too long.' }];
  const art = [piece({ pxPerMm: 8 }), piece({ id: 'other', name: 'other.png', pxPerMm: 3 })];
  const problems = checkJob(inputOf(job, factsOf(job, [bold(), blank()], { sheets, art })));
  expect(problems.map(({ severity }) => severity)).toEqual(['error', 'warning', 'warning', 'note']);
  expect(problems.map(({ code }) => code)).toEqual([
    'film-fits-no-sheet',
    'low-resolution',
    'ink-without-print',
    'low-resolution',
  ]);
  for (const { what, mend } of problems) {
    expect(what).toMatch(/^[“A-Z].*\.$/);
    expect(mend).toMatch(/^[A-Z].*\.$/);
  }
});

test('a stopped check ends early', () => {
  const job = jobWith([red]);
  expect(checkJob(inputOf(job, factsOf(job, [blank()])), { aborted: true })).toEqual([]);
});

describe('the document', () => {
  test('a job without art, and one whose art is all hidden', () => {
    const job = jobWith([red], { art: [] });
    expect(one('no-art', job)).toMatchObject({ severity: 'error', face: null });
    const hidden = jobWith([red]);
    hidden.faces.bottom.art[0]!.hidden = true;
    expect(one('no-art', hidden).what).toContain('hidden');
  });

  test('a faded piece on a face of flat inks prints solid; on one of dots it fades', () => {
    const fade = (opacity: number, method: 'spot' | 'halftone') => {
      const job = jobWith([red], { method });
      const [art] = job.faces.bottom.art;
      const bottom = { ...job.faces.bottom, art: [{ ...art!, opacity }] };
      return { ...job, faces: { ...job.faces, bottom } };
    };
    const flat = fade(0.4, 'spot');
    expect(one('faded-in-flat', flat, factsOf(flat, [bold()]))).toMatchObject({
      severity: 'note',
      art: 'sketch',
      what: expect.stringContaining('40 % opacity'),
    });
    for (const job of [fade(1, 'spot'), fade(0.4, 'halftone')])
      expect(only('faded-in-flat', job, factsOf(job, [bold()]))).toEqual([]);
  });
  test('art on a face without ink', () => {
    expect(one('no-inks', jobWith([]))).toMatchObject({ severity: 'error', face: 'bottom' });
  });

  test('a base that is asked for and not there, or pulled too late', () => {
    const asking = ink('Coral', '#e8613c', { needsBase: 'all' });
    expect(one('base-absent', jobWith([asking]))).toMatchObject({ severity: 'error', ink: 'coral' });
    const white = ink('White', '#f7f3e8', { role: 'base' });
    const late = one('base-late', jobWith([asking, white]));
    expect(late).toMatchObject({ severity: 'error', ink: 'white' });
    expect(late.what).toBe('White is pull 2, after Coral, and would cover what it should lie under.');
    expect(codes(jobWith([white, asking]))).toEqual([]);
  });
});

describe('placement', () => {
  const job = jobWith([red]);
  const outer = bar(blank(), 1, 1, 38, 18);
  const at = (x0: number, y0: number, x1: number, y1: number) => [
    piece({
      ring: [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ],
    }),
  ];

  test('art inside the printable area is no problem', () => {
    expect(codes(job, factsOf(job, [bold()], { printable: outer }))).toEqual([]);
  });

  test('art that is cut on one side is a warning with the share that is lost', () => {
    const problem = one(
      'art-outside',
      job,
      factsOf(job, [bold()], { printable: outer, art: at(9, -4, 29, 4) }),
    );
    expect(problem).toMatchObject({ severity: 'warning', art: 'sketch', face: 'bottom' });
    // 10 of its 20 mm lie beyond x = 19.
    expect(problem.what).toContain('50 %');
  });

  test('only what has ink counts where it is known', () => {
    const inked = bar(blank(), 30, 8, 5, 4);
    const art = at(9, -4, 29, 4).map((p) => ({ ...p, inked }));
    // The part beyond the raster is taken to be as full as the rest: 20 of 88 mm², of 72 mm² beyond it.
    expect(one('art-outside', job, factsOf(job, [bold()], { printable: outer, art })).what).toContain('45 %');
    const away = at(-18, -8, 19.5, 8).map((p) => ({ ...p, inked }));
    expect(codes(job, factsOf(job, [bold()], { printable: outer, art: away }))).toEqual([]);
  });

  test('art that covers all of the area is meant to run past it', () => {
    const problem = one(
      'art-bleeds',
      job,
      factsOf(job, [bold()], { printable: outer, art: at(-25, -15, 25, 15) }),
    );
    expect(problem.severity).toBe('note');
  });

  test('art wholly outside is an error', () => {
    for (const art of [at(60, 60, 80, 70), at(19.2, -4, 40, 4)])
      expect(one('art-outside', job, factsOf(job, [bold()], { printable: outer, art }))).toMatchObject({
        severity: 'error',
      });
  });

  test('resolution: under 150 a warning, under 300 a note, vectors never', () => {
    const severity = (dpi: number | null) =>
      only(
        'low-resolution',
        job,
        factsOf(job, [bold()], { art: [piece({ pxPerMm: dpi === null ? null : dpi / 25.4 })] }),
      ).map((problem) => problem.severity);
    expect(severity(149)).toEqual(['warning']);
    expect(severity(151)).toEqual(['note']);
    expect(severity(290)).toEqual(['note']);
    expect(severity(300)).toEqual([]);
    expect(severity(null)).toEqual([]);
  });

  test('unplanned colours are named with their share, specks of them are not', () => {
    const art = [
      piece({
        unplanned: [
          { hex: '#00ff00', share: 0.0001 },
          { hex: '#123456', share: 0.05 },
        ],
      }),
    ];
    const problem = one('unplanned-colour', job, factsOf(job, [bold()], { art }));
    expect(problem.what).toContain('#123456 (5.0 %)');
    expect(problem.what).not.toContain('#00ff00');
  });
});

describe('fineness', () => {
  const job = jobWith([red]);

  test.each([0.1, 0.15, 0.2, 0.25])('a line %d mm wide is found', (width) => {
    const line = bar(bold(), 22, 4, width, 12);
    const problem = one('fine-lines', job, factsOf(job, [line]));
    expect(problem).toMatchObject({ severity: 'warning', ink: 'red' });
    expect(getBit(line, pointOf(problem).x, pointOf(problem).y)).toBe(true);
    expect(problem.at!.s).toBeCloseTo(2, 0);
    expect(problem.where).toContain('mid-wheelbase');
  });

  test.each([0.3, 0.35, 0.5, 1])('a line %d mm wide is not', (width) => {
    expect(codes(job, factsOf(job, [bar(bold(), 22, 4, width, 12)]))).toEqual([]);
  });

  test.each([0, 7, 22.5, 30, 45, 71])(
    'a line turned by %d degrees: 0.3 mm passes, 0.2 mm does not',
    (turn) => {
      const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      const drawn = (width: number) => {
        const mask = blank();
        for (let y = 0; y < mask.height; y++)
          for (let x = 0; x < mask.width; x++) {
            const [dx, dy] = [(x + 0.5) / 20 - 20, (y + 0.5) / 20 - 10];
            const [along, off] = [dx * cos + dy * sin, dy * cos - dx * sin];
            if (Math.abs(off) <= width / 2 && Math.abs(along) < 7)
              mask.data[y * mask.stride + (x >>> 5)]! |= 1 << (x & 31);
          }
        return mask;
      };
      expect(codes(job, factsOf(job, [drawn(0.3)]))).toEqual([]);
      expect(codes(job, factsOf(job, [drawn(0.2)]))).toEqual(['fine-lines']);
    },
  );

  test('corners and the tips of short tapers are no lines', () => {
    const wedge = blank();
    for (let x = 0; x < 200; x++) bar(wedge, 5 + x / 20, 10 - (x / 200) * 3, 0.05, (x / 100) * 3 + 0.05);
    expect(codes(job, factsOf(job, [wedge]))).toEqual([]);
  });

  test('a fine gap of bare wood is found, a wider one is not', () => {
    const gap = (width: number) => without(bar(blank(), 5, 4, 20, 12), 12, 4, width, 12);
    const problem = one('fine-gaps', job, factsOf(job, [gap(0.2)]));
    expect(problem).toMatchObject({ severity: 'warning', ink: null });
    expect(getBit(gap(0.2), pointOf(problem).x, pointOf(problem).y)).toBe(false);
    expect(codes(job, factsOf(job, [gap(0.4)]))).toEqual([]);
  });

  test('a gap that another ink fills is none', () => {
    const two = jobWith([red, blue], { traps: { width: 0, pairs: [], choke: 0, narrowestLine: 0.3 } });
    const gap = without(bar(blank(), 5, 4, 20, 12), 12, 4, 0.2, 12);
    const filled = bar(bar(blank(), 12, 4, 0.2, 12), 28, 4, 5, 5);
    expect(codes(two, factsOf(two, [gap, filled]))).toEqual(['fine-lines']);
  });

  test('an ink with nothing to print', () => {
    const two = jobWith([red, blue]);
    expect(one('ink-without-print', two, factsOf(two, [bold(), blank()]))).toMatchObject({ ink: 'blue' });
  });
});

describe('ink and wood', () => {
  const veneers = [
    { id: 'plum', name: 'Plum stain', hex: '#6e4058', decks: 6 },
    { id: 'maple', name: 'Natural maple', hex: '#dcb98a', decks: 6 },
  ];

  test('an ink like the wood it prints on, unless a base lies between', () => {
    const near = ink('Mauve', '#6c4259');
    const job = { ...jobWith([near]), veneers };
    const problem = one('ink-like-veneer', job, factsOf(job, [bold()]));
    expect(problem.what).toContain('Plum stain');
    expect(problem.what).not.toContain('maple');
    const white = ink('White', '#f7f3e8', { role: 'base' });
    const based = { ...jobWith([white, { ...near, needsBase: ['plum'] }]), veneers };
    // Only the veneer without the base and the base's own pallor are told: both ask for no change of the art.
    expect(codes(based, factsOf(based, [blank(), bold()]))).not.toContain('ink-like-veneer');
  });

  test('a colourway that makes an ink vanish', () => {
    const colourways = [
      { id: 'dusk', name: 'Dusk', colours: { red: { name: 'Dusk mauve', hex: '#6c4259' } } },
    ];
    const job = { ...jobWith([red]), veneers, colourways };
    expect(one('ink-like-veneer', job, factsOf(job, [bold()])).what).toMatch(/^Dusk mauve/);
  });

  test('a transparent ink on dark wood without a base', () => {
    const glaze = ink('Glaze', '#ffcf40', { kind: 'transparent', opacity: 0.3 });
    const job = { ...jobWith([glaze]), veneers };
    const problem = one('base-missing', job, factsOf(job, [bold()]));
    expect(problem.what).toContain('Plum stain');
    expect(problem.what).not.toContain('maple');
    const white = ink('White', '#f7f3e8', { role: 'base' });
    const based = { ...jobWith([white, { ...glaze, needsBase: 'all' }]), veneers };
    expect(codes(based, factsOf(based, [blank(), bold()]))).toEqual([]);
    const opaque = { ...jobWith([{ ...glaze, kind: 'opaque', opacity: 0.95 }]), veneers };
    expect(codes(opaque, factsOf(opaque, [bold()]))).toEqual([]);
  });
});

describe('traps and chokes', () => {
  const yellow = ink('Yellow', '#f2b632', { opacity: 0.75 });
  const coral = ink('Coral', '#e8613c', { opacity: 0.8 });
  const key = (opacity: number) => ink('Key', '#1b2440', { opacity });
  const left = () => bar(blank(), 5, 4, 10, 12);

  test('a line between two inks, thinner than twice the trap: a note if it hides, a warning if it does not', () => {
    const parts = [left(), bar(blank(), 15.7, 4, 10, 12), bar(blank(), 15, 4, 0.7, 12)];
    const severity = (opacity: number) => {
      const job = jobWith([yellow, coral, key(opacity)]);
      return only('line-thinner-than-traps', job, factsOf(job, parts)).map((problem) => problem.severity);
    };
    expect(severity(0.97)).toEqual(['note']);
    expect(severity(0.6)).toEqual(['warning']);
    const wide = [left(), bar(blank(), 16.2, 4, 10, 12), bar(blank(), 15, 4, 1.2, 12)];
    const job = jobWith([yellow, coral, key(0.97)]);
    expect(codes(job, factsOf(job, wide))).toEqual([]);
  });

  test('a trap wider than the part it enters, with bare wood beyond', () => {
    const job = jobWith([yellow, key(0.97)]);
    const problem = one('trap-too-wide', job, factsOf(job, [left(), bar(blank(), 15, 4, 0.4, 12)]));
    expect(problem).toMatchObject({ severity: 'warning', ink: 'yellow' });
    expect(codes(job, factsOf(job, [left(), bar(blank(), 15, 4, 0.8, 12)]))).toEqual([]);
    const butted = jobWith([yellow, key(0.97)], {
      traps: { width: 0, pairs: [], choke: 0, narrowestLine: 0.3 },
    });
    expect(codes(butted, factsOf(butted, [left(), bar(blank(), 15, 4, 0.4, 12)]))).toEqual([]);
  });

  test('a light ink pulled over a dark one that it does not hide', () => {
    const parts = [left(), bar(blank(), 15, 4, 10, 12)];
    const job = jobWith([key(0.97), yellow]);
    expect(one('light-over-dark', job, factsOf(job, parts))).toMatchObject({
      ink: 'yellow',
      severity: 'warning',
    });
    const right = jobWith([yellow, key(0.97)]);
    expect(codes(right, factsOf(right, parts))).toEqual([]);
    const hiding = jobWith([key(0.97), { ...yellow, opacity: 0.95 }]);
    expect(codes(hiding, factsOf(hiding, parts))).toEqual([]);
    const apart = [left(), bar(blank(), 18, 4, 10, 12)];
    expect(codes(job, factsOf(job, apart))).toEqual([]);
  });

  test('a choke that would take the base from under a line', () => {
    const white = ink('White', '#f7f3e8', { role: 'base' });
    const job = jobWith([white, { ...yellow, needsBase: 'all' }]);
    const lines = (width: number) => bar(left(), 20, 4, width, 12);
    expect(one('choke-limited', job, factsOf(job, [blank(), lines(0.6)]))).toMatchObject({
      severity: 'note',
      ink: 'white',
    });
    expect(codes(job, factsOf(job, [blank(), lines(2)]))).toEqual([]);
    // The base's own white is art, thin or not.
    expect(codes(job, factsOf(job, [bar(blank(), 30, 4, 0.35, 12), lines(2)]))).toEqual([]);
  });
});

describe('truck holes', () => {
  const job = jobWith([red, blue, ink('Green', '#2f8f83')], {
    traps: { width: 0, pairs: [], choke: 0, narrowestLine: 0.3 },
  });
  const hole = { s: 0, t: 0 };
  const far = () => bar(blank(), 30, 2, 5, 5);

  test('a hole in fine lines or where several inks meet is noted, one in a flat area is not', () => {
    const flat = factsOf(job, [bar(blank(), 10, 2, 18, 16), far(), bar(blank(), 2, 2, 3, 3)], {
      holes: [hole],
    });
    expect(codes(job, flat)).toEqual([]);
    const lines = factsOf(
      job,
      [bar(bar(blank(), 19, 4, 0.6, 12), 21, 4, 0.6, 12), far(), bar(blank(), 2, 2, 3, 3)],
      { holes: [hole] },
    );
    const problem = one('holes-in-art', job, lines);
    expect(problem).toMatchObject({ severity: 'note', at: hole });
    expect(problem.what).toMatch(/^One truck hole falls/);
    const meeting = factsOf(
      job,
      [bar(blank(), 10, 2, 10, 8), bar(blank(), 20, 2, 10, 8), bar(blank(), 10, 10, 20, 8)],
      { holes: [hole, { s: -15, t: 8 }] },
    );
    expect(one('holes-in-art', job, meeting).what).toMatch(/^One/);
  });

  test('the raster the checks are made on holds the sizes the tests speak of', () => {
    expect(DPI / 25.4).toBe(20);
  });
});
