import { expect, test } from 'vitest';
import { runAdvice } from '../../../core/check/index.ts';
import { deltaE00, labOfHex } from '../../../core/colour/index.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { type Ink, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { composePulls } from '../../../core/proof/index.ts';

const blue = inkFrom({ name: 'Night blue', hex: '#1b2440', opacity: 0.97 }, []);
const coral = inkFrom({ name: 'Coral', hex: '#e8613c', opacity: 0.8 }, [blue]);
const base = inkFrom({ name: 'Base white', hex: '#f7f3e8', role: 'base', opacity: 0.9 }, [blue, coral]);
const MAPLE = { id: 'natural', name: 'Natural maple', hex: '#dcb98a', decks: 6 };
const PLUM = { id: 'plum', name: 'Plum stain', hex: '#3a2230', decks: 6 };

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

/** What the proof itself shows of a solid pull on a wood. */
function seen(ink: Ink, wood: string): string {
  const { data } = composePulls({
    width: 1,
    height: 1,
    veneerHex: wood,
    deck: null,
    pulls: [{ ...ink, plane: { width: 1, height: 1, data: Uint8Array.of(255) } }],
  });
  return `#${[...data.slice(0, 3)].map((v) => v.toString(16).padStart(2, '0')).join('')}`;
}

test('an ink that looks like another on a veneer is told, with how far, and not where the base lies under it', () => {
  const coral4 = { ...coral, opacity: 0.4 };
  const off = deltaE00(labOfHex(seen(coral4, PLUM.hex)), labOfHex(coral.hex));
  expect(off).toBeGreaterThan(10);
  const told = advice(jobWith([base, coral4]));
  const plum = told.find((a) => a.what.includes('Plum stain'));
  expect(plum).toMatchObject({ ink: 'coral' });
  // The sentence names the worst of its veneers.
  const most = Math.max(
    ...[MAPLE, PLUM].map(({ hex }) => deltaE00(labOfHex(seen(coral4, hex)), labOfHex(coral.hex))),
  );
  expect(plum?.what).toContain(`ΔE00 ${most.toFixed(0)} `);
  expect(plum?.mend).toMatch(/^Put the base under it there/);
  expect(advice(jobWith([base, { ...coral4, needsBase: 'all' }]))).toEqual([]);
  expect(advice(jobWith([coral4]))[0]?.mend).toMatch(/^Add a base/);
  expect(advice(jobWith([{ ...coral, opacity: 1 }]))).toEqual([]);
});

test('a colourway that makes a later ink lighter than one it does not hide asks for another order', () => {
  const deep = { ...coral, hex: '#2a1c18', name: 'Brown', opacity: 0.85, needsBase: 'all' as const };
  const ways: Job['colourways'] = [
    { id: 'own', name: 'Harbour', colours: {} },
    { id: 'pale', name: 'Pale', colours: { coral: { name: 'Shell', hex: '#f2d6c8' } } },
  ];
  const told = advice(jobWith([base, { ...blue, needsBase: 'all' }, deep], { colourways: ways }));
  expect(told).toHaveLength(1);
  expect(told[0]).toMatchObject({
    ink: 'coral',
    what: 'In “Pale” Shell is pulled over Night blue, which is darker, and hides only 85 %: where they overlap it will look dull.',
    mend: 'Pull Shell before Night blue in that colourway, or mix it more opaque there.',
  });
  const opaque = { ...deep, opacity: 0.95 };
  expect(advice(jobWith([base, { ...blue, needsBase: 'all' }, opaque], { colourways: ways }))).toEqual([]);
});
