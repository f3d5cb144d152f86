import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { type FaceJob, type Ink, inkFrom, newJob, takeInks } from '../../../core/job/index.ts';

const face = (inks: readonly Ink[], over: Partial<FaceJob> = {}): FaceJob => ({
  ...newJob({ name: 'Try', deck: deckTemplate('popsicle-8.25')! }).faces.bottom,
  inks: [...inks],
  ...over,
});

test('taken inks keep bases, protected inks and the settings of those that are there already', () => {
  const base = inkFrom({ name: 'Base', hex: '#f7f3e8', role: 'base' }, []);
  const red = { ...inkFrom({ name: 'Red', hex: '#e8613c', opacity: 0.5 }, [base]), matches: '#d7263d' };
  const odd = inkFrom({ name: 'Odd', hex: '#8844cc', kept: true }, [base, red]);
  const gone = inkFrom({ name: 'Gone', hex: '#112233' }, [base, red, odd]);
  const before = face([base, red, odd, gone], {
    handColours: [
      { hex: '#445566', ink: gone.id },
      { hex: '#665544', ink: odd.id },
    ],
  });
  const after = takeInks(before, [
    { name: 'Gold', hex: '#f2b632', opacity: 0.7 },
    { name: 'Red', hex: '#d7263d' },
    { name: 'Odd', hex: '#8844cc' },
  ]);
  expect(after.inks.map((i) => i.name)).toEqual(['Base', 'Gold', 'Red', 'Odd']);
  expect(after.inks[1]).toMatchObject({ opacity: 0.7, meshPerCm: 77 });
  expect(after.inks[2]).toBe(red);
  expect(after.inks[3]).toBe(odd);
  expect(after.handColours).toEqual([{ hex: '#665544', ink: odd.id }]);
});
