import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseLength } from '../../../core/units/index.ts';

const mm = (text: string, bare?: 'mm' | 'in') => {
  const read = parseLength(text, bare);
  return read.ok ? read.value : null;
};

describe('lengths as people write them', () => {
  // The inch is 25.4 mm by definition (1959 agreement); the rest is arithmetic.
  const right: readonly (readonly [string, number])[] = [
    ['210', 210],
    ['210mm', 210],
    ['210 mm', 210],
    ['21cm', 210],
    ['0.21 m', 210],
    ['8.25in', 209.55],
    ['8.25"', 209.55],
    ['8.25 inches', 209.55],
    ['8 1/4"', 209.55],
    ['8-1/4 in', 209.55],
    ['8 1⁄4″', 209.55],
    ['3/4in', 19.05],
    ['8,25in', 209.55],
    ['.5in', 12.7],
    ['-3mm', -3],
    ['+3', 3],
    [' 12 ', 12],
    ['8 MM', 8],
  ];
  for (const [text, length] of right)
    test(`“${text}” is ${length} mm`, () => expect(mm(text)).toBeCloseTo(length, 9));

  test('a bare number may be meant in inches', () => expect(mm('8 1/4', 'in')).toBeCloseTo(209.55, 9));

  for (const text of [
    '',
    'wide',
    '1+2',
    '3mm 4mm',
    '1/0in',
    '8 1/4 1/4',
    '1e3',
    'NaN',
    'Infinity',
    '5 furlongs',
    '1,234.5',
    '9'.repeat(50),
  ])
    test(`“${text.slice(0, 12)}” is refused with a way out`, () => {
      const read = parseLength(text);
      expect(read.ok).toBe(false);
      if (!read.ok) expect(read.mend).toContain('210mm');
    });

  test('any number with a unit comes back, and any text at all is either a finite length or refused, seed 7', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 9999, noNaN: true }),
        fc.constantFrom('mm', 'cm', 'in'),
        (n, unit) => {
          const text = n.toFixed(4);
          const factor = { mm: 1, cm: 10, in: 25.4 }[unit] as number;
          expect(mm(`${text}${unit}`)).toBeCloseTo(Number(text) * factor, 6);
        },
      ),
      { seed: 7 },
    );
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const read = parseLength(text);
        if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
