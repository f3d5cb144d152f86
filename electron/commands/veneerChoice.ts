import { idFrom, type Job, type Veneer } from '../../core/job/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { unknown } from './options.ts';

/** Usual veneers of a deck's outer plies. The colours are our own estimates of stained maple, no source. */
export const VENEERS: readonly { readonly id: string; readonly name: string; readonly hex: string }[] = [
  { id: 'natural', name: 'Natural maple', hex: '#dcb98a' },
  { id: 'teal', name: 'Teal stain', hex: '#3f8280' },
  { id: 'rust', name: 'Rust stain', hex: '#a9572f' },
  { id: 'plum', name: 'Plum stain', hex: '#6e4058' },
  { id: 'black', name: 'Black stain', hex: '#2b2725' },
  { id: 'red', name: 'Red stain', hex: '#a2332f' },
  { id: 'blue', name: 'Blue stain', hex: '#38598c' },
  { id: 'green', name: 'Green stain', hex: '#4c7a48' },
  { id: 'yellow', name: 'Yellow stain', hex: '#d9a93a' },
];

/** A veneer of the job or a usual one by its id or name, or any colour as '#hex'. */
export function veneerFrom(text: string, ofJob: Job['veneers']): Outcome<Veneer> {
  const wanted = text.trim().toLowerCase();
  const named = [...ofJob, ...VENEERS].find(
    (v) => v.id.toLowerCase() === wanted || v.name.toLowerCase() === wanted,
  );
  if (named) return done({ decks: 0, ...named });
  if (/^#[0-9a-f]{6}$/.test(wanted)) {
    const taken = ofJob.map((v) => v.id);
    return done({ id: idFrom(`veneer ${wanted.slice(1)}`, taken), name: wanted, hex: wanted, decks: 0 });
  }
  const known = [...new Set([...ofJob, ...VENEERS].map((v) => v.id))];
  return unknown('veneer', text, known, "Any colour may be given as '#hex'.");
}
