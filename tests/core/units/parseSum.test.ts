import { expect, test } from 'vitest';
import { parseLength, parseNumberSum, parseSum } from '../../../core/units/index.ts';

const mm = (text: string, bare: 'mm' | 'in' = 'mm') => {
  const read = parseSum(text, bare);
  return read.ok ? (read.value as number) : read.reason;
};

// An inch is 25.4 mm exactly (ISO 31-1; NIST SP 811, appendix B).
for (const [text, value] of [
  ['210', 210],
  ['8 1/4"', 209.55],
  ['8-1/4 in', 209.55],
  ['-3mm', -3],
  ['210 + 5', 215],
  ['210+5', 215],
  ['210mm - 1/2"', 197.3],
  ['8 1/4" - 3 mm', 206.55],
  ['10 − 2.5', 7.5],
  ['2*3', 6],
  ['210 + 2*3mm', 216],
  ['3 × 1/2"', 38.1],
  ['100/4', 25],
  ['100 mm / 8', 12.5],
  ['12 ÷ 5 * 2', 4.8],
  ['10 - -2', 12],
  ['1 cm + 2,5 mm', 12.5],
  ['8 1/4" / 2', 104.775],
] as const)
  test(`${text} is ${value} mm`, () => expect(mm(text)).toBeCloseTo(value, 9));

test('a bare number is in the field’s own unit, but for what a length is multiplied by', () => {
  expect(mm('8 + 1/4', 'in')).toBeCloseTo(209.55, 9);
  expect(mm('2*4', 'in')).toBeCloseTo(203.2, 9);
});

test('whatever is a length alone is the same length in a sum field', () => {
  for (const text of ['210', '8 1/4"', '8-1/4"', '3/4 in', '.5', '1,5cm', '-2'])
    for (const bare of ['mm', 'in'] as const) {
      const alone = parseLength(text, bare);
      expect(mm(text, bare)).toBe(alone.ok ? alone.value : 'refused');
    }
});

for (const text of [
  '',
  '+',
  '210 +',
  '2 mm * 3 mm',
  '5/0',
  '(1+2)*3',
  '1e9',
  'wide',
  '1'.repeat(200),
  '1+'.repeat(40),
])
  test(`“${text.slice(0, 20)}” is refused`, () => expect(mm(text)).toMatch(/is not a length\.$/));

test('plain numbers add up as well, whatever unit stands after them', () => {
  expect(parseNumberSum('45°')).toBe(45);
  expect(parseNumberSum('90 - 30 °')).toBe(60);
  expect(parseNumberSum('-12,5')).toBe(-12.5);
  expect(parseNumberSum('10 + 2*3')).toBe(16);
  expect(parseNumberSum('360/7')).toBeCloseTo(51.428571, 5);
  expect(parseNumberSum('much')).toBeNull();
  expect(parseNumberSum('')).toBeNull();
});
