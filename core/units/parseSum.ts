import { optionTrouble } from '../sentences/index.ts';
import type { Mm } from './length.ts';
import { done, type Outcome } from './outcome.ts';
import { parseLength } from './parseLength.ts';

/** Longest text worth reading, and most terms of a sum. */
const LONGEST_TEXT = 120;
const MOST_TERMS = 20;

const NUMBER = /^(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;
const OPERATORS = '+-−*×/÷';

/** A plain number, or null. */
const plain = (text: string): number | null => {
  const trimmed = text.trim();
  return NUMBER.test(trimmed) ? Number(trimmed.replace(',', '.')) : null;
};

/** Cuts at signs that join terms; a sign at the start, or right after another operator, belongs to what follows. */
function terms(text: string): { readonly sign: 1 | -1; readonly text: string }[] {
  const out: { sign: 1 | -1; text: string }[] = [];
  let from = 0;
  let sign: 1 | -1 = 1;
  let before = '';
  for (let i = 0; i <= text.length; i++) {
    const c = text[i] ?? '+';
    const joins = /[+−-]/.test(c) && before !== '' && !OPERATORS.includes(before);
    if (i === text.length || joins) {
      out.push({ sign, text: text.slice(from, i) });
      from = i + 1;
      sign = c === '+' ? 1 : -1;
      before = joins ? c : before;
    } else if (c.trim() !== '') before = c;
  }
  return out;
}

/** A term: what `read` takes, or such a thing times and over plain numbers. */
function product(text: string, read: (text: string) => number | null): number | null {
  const whole = read(text);
  if (whole !== null) return whole;
  // The last operator is done last: left to right, as on paper. A stroke may also be a fraction's, so earlier ones are tried too.
  for (let at = text.length - 1; at > 0; at--) {
    if (!/[*×÷/]/.test(text[at] as string)) continue;
    const times = /[*×]/.test(text[at] as string);
    const [left, right] = [text.slice(0, at), text.slice(at + 1)];
    const by = plain(right);
    const of = by === null || (by === 0 && !times) ? null : product(left, read);
    if (of !== null) return times ? of * by! : of / by!;
    const [first, length] = times ? [plain(left), read(right)] : [null, null];
    if (first !== null && length !== null) return first * length;
  }
  return null;
}

function sum(text: string, read: (text: string) => number | null): number | null {
  if (text.length > LONGEST_TEXT) return null;
  const alone = read(text);
  if (alone !== null) return alone;
  const parts = terms(text);
  if (parts.length > MOST_TERMS) return null;
  let total = 0;
  for (const { sign, text: part } of parts) {
    const value = product(part, read);
    if (value === null) return null;
    total += sign * value;
  }
  return Number.isFinite(total) ? total : null;
}

/**
 * A length, mm, as `parseLength` takes it, or a simple sum of lengths: `210 + 2*3mm`, `8 1/4" - 3 mm`, `100/3`. A number without a
 * unit is taken in `bare`, but for what a length is multiplied or divided by. No brackets.
 */
export function parseSum(text: string, bare: 'mm' | 'in' = 'mm'): Outcome<Mm> {
  const read = (part: string) => {
    const length = parseLength(part, bare);
    return length.ok ? (length.value as number) : null;
  };
  const total = sum(text, read);
  if (total !== null) return done(total);
  const alone = parseLength(text, bare);
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  return alone.ok ? alone : optionTrouble.notLengthOrSum(shown, bare);
}

/** A plain number or a simple sum of such, or null; units after it (`°`, `%`) are passed over. */
export function parseNumberSum(text: string): number | null {
  const bare = text.replace(/[°%\s]+$/u, '');
  const read = (part: string) => {
    const [, sign, rest] = /^\s*([+−-]?)(.*)$/s.exec(part)!;
    const value = plain(rest!);
    return value === null ? null : sign === '-' || sign === '−' ? -value : value;
  };
  return sum(bare, read);
}
