import { expect, test } from 'vitest';
import { runAdvice } from '../../../core/check/index.ts';
import { deltaE00, labOfHex } from '../../../core/colour/index.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { type Ink, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { composePulls } from '../../../core/proof/index.ts';

const blue = inkFrom({ name: 'Night blue', hex: '#1b2440', opacity: 0.97 }, []);
const coral = inkFrom({ name: 'Coral', hex: '#e8613c', opacity: 0.8 }, [blue]);
const base = inkFrom({ name: 'Base white', hex: '#f7f3e8', role: 'base', opacity: 0.9 }, [blue, coral]);
const MAPLE = {
  id: 'natural',
  name: 'Natural maple',
  hex: '#dcb98a',
  decks: 6,
};
const PLUM = { id: 'plum', name: 'Plum stain', hex: '#3a2230', decks: 6 };
const seen = (ink: Ink, wood: string) => seenOn(wood, [ink]);

function jobWith(inks: readonly Ink[], over: Partial<Job> = {}): Job {
  const job = newJob({ name: 'Try', deck: deckTemplate('popsicle-8.25')! });
  return {
    ...job,
    veneers: [MAPLE, PLUM],
    faces: { ...job.faces, bottom: { ...job.faces.bottom, inks: [...inks] } },
    ...over,
  };
}
const advice = (job: Job) => runAdvice(job, job.faces.bottom);

/** What the proof itself shows of solid pulls on a wood. */
function seenOn(wood: string, inks: readonly Ink[]): string {
  const { data } = composePulls({
    width: 1,
    height: 1,
    veneerHex: wood,
    deck: null,
    pulls: inks.map((ink) => ({
      ...ink,
      plane: { width: 1, height: 1, data: Uint8Array.of(255) },
    })),
  });
  return `#${[...data.slice(0, 3)].map((v) => v.toString(16).padStart(2, '0')).join('')}`;
}

test('an ink that looks like another on a veneer is told, with how far, and not where the base lies under it', () => {
  const sun = inkFrom({ name: 'Sand', hex: '#f4ead0', opacity: 0.55 }, [base]);
  const off = deltaE00(labOfHex(seen(sun, PLUM.hex)), labOfHex(sun.hex));
  expect(off).toBeGreaterThan(10);
  expect(advice(jobWith([base, sun]))).toMatchObject([
    {
      ink: 'sand',
      veneers: ['plum'],
      looks: { own: sun.hex, there: seen(sun, PLUM.hex), on: 'Plum stain' },
      what: `Sand lets what is under it show and looks like another ink on bare Plum stain (ΔE00 ${off.toFixed(0)}; 5 shows at a glance).`,
      mend: 'Let it ask for the base there (the base’s film then changes), or use an ink that hides more.',
    },
  ]);
  expect(advice(jobWith([base, { ...sun, needsBase: 'all' }]))).toEqual([]);
  expect(advice(jobWith([sun]))[0]?.mend).toMatch(/^Add a base/);
  expect(advice(jobWith([{ ...sun, opacity: 1 }]))).toEqual([]);
});

test('a white base is never advised under an ink that it would turn paler than the wood does', () => {
  const thin = { ...blue, opacity: 0.8 };
  const over = (under: readonly Ink[]) =>
    deltaE00(labOfHex(seenOn(MAPLE.hex, [...under, thin])), labOfHex(thin.hex));
  expect(over([base])).toBeGreaterThan(over([]));
  expect(over([thin])).toBeLessThan(over([]) - 5);
  const [told] = advice(jobWith([base, thin]));
  expect(told?.mend).toMatch(/^Pull it twice there/);
  // On the base it is told to leave it.
  const [based] = advice(jobWith([base, { ...thin, opacity: 0.6, needsBase: 'all' }]));
  expect(based?.mend).toMatch(/^It comes nearer without the base/);
});

test('veneers on which nothing asks for the base are named, and the one base film is reckoned with', () => {
  const asks = { ...coral, opacity: 0.5, needsBase: ['plum'] };
  const told = advice(jobWith([base, asks]));
  expect(told[0]).toMatchObject({
    ink: 'base-white',
    what: 'On Natural maple no ink asks for Base white beneath it.',
  });
  // Where another ink has the base pulled, its film's bed lies under this one as well.
  const both = advice(jobWith([base, asks, { ...blue, needsBase: 'all' }]));
  expect(both.filter(({ ink }) => ink === 'coral')).toEqual(
    advice(jobWith([base, { ...asks, needsBase: 'all' }])),
  );
  expect(both.some(({ what }) => what.includes('no ink asks'))).toBe(false);
});

test('a colourway that makes a later ink lighter than one it does not hide asks for another order', () => {
  const deep = {
    ...coral,
    hex: '#2a1c18',
    name: 'Brown',
    opacity: 0.85,
    needsBase: 'all' as const,
  };
  const ways: Job['colourways'] = [
    { id: 'own', name: 'Harbour', colours: {} },
    {
      id: 'pale',
      name: 'Pale',
      colours: { coral: { name: 'Shell', hex: '#f2d6c8' } },
    },
  ];
  const orders = (inks: readonly Ink[]) =>
    advice(jobWith(inks, { colourways: ways })).filter(({ veneers }) => veneers.length === 0);
  const told = orders([base, { ...blue, needsBase: 'all' }, deep]);
  expect(told).toHaveLength(1);
  expect(told[0]).toMatchObject({
    ink: 'coral',
    what: 'In “Pale” Shell is pulled over Night blue, which is darker, and hides only 85 %: where they overlap it will look dull.',
    mend: 'Pull Shell before Night blue in that colourway, or mix it more opaque there; the films stay as they are.',
  });
  expect(orders([base, { ...blue, needsBase: 'all' }, { ...deep, opacity: 0.95 }])).toEqual([]);
  // One ink that must move is told once, however many it meets.
  const green = inkFrom({ name: 'Green', hex: '#2a4430', opacity: 0.85 }, [base, blue, deep]);
  expect(orders([base, blue, green, deep])).toMatchObject([
    {
      ink: 'coral',
      mend: expect.stringMatching(/^Pull Shell before Night blue and Green in that colourway/),
    },
  ]);
});
