import type { Job } from '../job/index.ts';
import { MM_PER_INCH } from '../units/index.ts';

/** A length in the job's own unit, to about two figures: `0.3 mm`, `210 mm`, `0.012 in`. */
export function lengthText(job: Job, mm: number): string {
  const value = job.units === 'mm' ? mm : mm / MM_PER_INCH;
  const size = Math.abs(value);
  const digits = job.units === 'mm' ? (size < 1 ? 2 : size < 10 ? 1 : 0) : size < 0.1 ? 3 : size < 10 ? 2 : 1;
  const text = value.toFixed(digits);
  return `${text.includes('.') ? text.replace(/\.?0+$/, '') : text} ${job.units}`;
}

/** An area, mm² below 10 cm², cm² above. */
export const areaText = (mm2: number): string =>
  mm2 < 1000
    ? `${mm2 < 1 ? Number(mm2.toFixed(2)) : mm2 < 10 ? mm2.toFixed(1) : mm2.toFixed(0)} mm²`
    : `${(mm2 / 100).toFixed(0)} cm²`;

/** A share, 0 to 1, in per cent. */
export const percentText = (share: number): string =>
  `${(share * 100).toFixed(share < 0.01 ? 2 : share < 0.1 ? 1 : 0)} %`;

/** `one place`, `2 places`. */
export const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `one ${one}` : `${count} ${many}`;

/** `a`, `a and b`, `a, b and c`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** A place on the deck as someone holding it would say it; nose to the right, as the face is seen. */
export function placeText(job: Job, { s, t }: { readonly s: number; readonly t: number }): string {
  const along =
    Math.abs(s) < 5
      ? 'at mid-wheelbase'
      : `${lengthText(job, Math.abs(s))} from mid-wheelbase towards the ${s > 0 ? 'nose' : 'tail'}`;
  const across =
    Math.abs(t) < 2
      ? 'on the centreline'
      : `${lengthText(job, Math.abs(t))} ${t > 0 ? 'above' : 'below'} the centreline`;
  return `${along}, ${across}`;
}
