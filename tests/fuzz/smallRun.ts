import { deckTemplate } from '../../core/deck/index.ts';
import { hashOf, type Ink, inkFrom, type JobFile, newJob, placeArt } from '../../core/job/index.ts';
import type { ImageCodec } from '../../core/ports/index.ts';

/** Dots per inch of the films here: few, so that many can be made. */
export const SMALL_DPI = 72;

const COLOURS = ['#f2b632', '#e8613c', '#1b2440'];

/** A run of three inks under a name of one's own; its art differs with `turn`, so that its films do too. */
export async function smallRun(codec: ImageCodec, name: string, turn: number): Promise<JobFile> {
  const bytes = new TextEncoder().encode(
    `<svg xmlns="http://www.w3.org/2000/svg" width="500mm" height="150mm" viewBox="0 0 500 150"><rect width="500" height="150" rx="40" fill="${COLOURS[0]}"/><circle cx="${120 + 20 * turn}" cy="75" r="60" fill="${COLOURS[1]}"/><path d="M20 130L480 20L460 110Z" fill="${COLOURS[2]}"/></svg>`,
  );
  const probe = await codec.probe(bytes, 'a.svg');
  const deck = deckTemplate('popsicle-8.25');
  if (!probe.ok || !deck) throw new Error('The art or the deck is not there.');
  const start = newJob({ name, deck });
  const inks: Ink[] = [];
  for (const hex of COLOURS) inks.push(inkFrom({ name: hex, hex }, inks));
  const bottom = { ...start.faces.bottom, inks };
  const facts = { ...probe.value, name: 'a.svg', hash: hashOf(bytes), ground: null };
  const placed = placeArt({ ...start, faces: { ...start.faces, bottom } }, 'bottom', facts, {
    fit: 'actual',
    wrap: 'surface',
    artDpi: null,
  });
  if (!placed.ok) throw new Error(placed.reason);
  return { job: placed.value.job, art: new Map([[facts.hash, bytes]]), extra: new Map() };
}
