import type { FilmLayout } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import type { LayOutRequest } from './layOutRequest.ts';
import { drawable, inkLabel } from './lettering.ts';
import type { Plan } from './planSheets.ts';
import type { Prepared } from './prepareFace.ts';
import { ASLANT } from './seam.ts';

/** Names the films and papers can not spell, and what stands there instead. */
export function nameNotes({ jobName, films }: Pick<LayOutRequest, 'jobName' | 'films'>): string[] {
  const notes = films
    .filter((film) => !drawable(film.inkName))
    .map(
      (film) =>
        `${film.inkName} is written in letters that films and papers can not draw: they call it ${inkLabel(film)}. Latin, Cyrillic and Greek names are drawn.`,
    );
  if (!drawable(jobName))
    notes.push(`The job's name is written in letters that films and papers can not draw: they leave it out.`);
  return notes;
}

/** What the user should know about where the marks stand. */
export function markNotes(chosen: Prepared, all: readonly Prepared[]): string[] {
  const notes = [...chosen.marks.notes];
  const saves = (from: Prepared | undefined) => {
    if (!from || !Number.isFinite(from.sheets)) return 'lets the film fit';
    const saved = from.sheets - chosen.sheets;
    return `saves ${saved} ${saved === 1 ? 'sheet' : 'sheets'}`;
  };
  if (chosen.about === 'art') {
    const deck = all.filter((one) => one.about === 'deck').sort((a, b) => a.sheets - b.sheets)[0];
    if (deck) notes.push(`Marks stand close about the art, which ${saves(deck)}.`);
    if (chosen.marks.leftOut > 0) {
      const line = chosen.marks.onCentreline
        ? "which stand on the deck's centreline"
        : "which here stand beside the deck's centreline; films.json says where";
      notes.push(
        `${chosen.marks.leftOut} truck holes lie too far from the art for a cross-hair: line the film up in the jig by the ring marks at its tail and nose ends, ${line}.`,
      );
    }
  }
  if (chosen.sides === 'slim') {
    const full = all.find((one) => one.about === chosen.about && one.sides === 'full');
    notes.push(
      `Side marks are set small, which ${saves(full)}; their vernier scales read the shift along the deck only; those at nose and tail read both ways.`,
    );
  }
  return notes;
}

/** What the user should know about one film's cuts. */
export function filmNotes(film: FilmLayout, verniers: boolean): string[] {
  const notes: string[] = [];
  if (film.inkedCm2 === 0)
    notes.push(`${film.art.inkName} has nothing to print; its film carries only marks.`);
  let [crossed, length, aslant] = [0, 0, 0];
  let [few, unread] = [0, 0];
  for (const sheet of film.sheets) {
    for (const seam of sheet.seams) {
      if (seam.with < sheet.index) continue;
      crossed += seam.crossings.length;
      for (const crossing of seam.crossings) length += crossing[2];
      aslant += seam.slants.filter((slant) => slant > ASLANT).length;
      if (seam.crossHairs.length < 4) few++;
      if (verniers && seam.scales.length < 2) unread++;
    }
  }
  if (crossed > 0) {
    notes.push(
      `${film.art.inkName}: the cuts cross ink ${crossed === 1 ? 'once' : `${crossed} times`}, ${length.toFixed(1)} mm in all${aslant > 0 ? `, ${aslant} of them aslant` : ''}; touch up with opaque ink.`,
    );
  }
  if (few > 0)
    notes.push(
      `${film.art.inkName}: ${few} of its overlaps have too little blank film for four cross-hairs.`,
    );
  if (unread > 0)
    notes.push(
      `${film.art.inkName}: ${unread} of its overlaps have too little blank film for scales both ways; match their cross-hairs.`,
    );
  return notes;
}

/**
 * What the one feed direction costs: films that would take fewer sheets if their pictures lay the other way. Films differ
 * so only where ink reaches further to nose or tail than the marks on the centreline, on sheets twice as long as wide or
 * on several rows.
 */
export function turnNotes(films: readonly FilmArt[], best: Plan, plans: readonly Plan[]): string[] {
  const other = plans.find((plan) => plan.turn !== best.turn);
  const saved: string[] = [];
  let sheets = 0;
  for (const [i, { columns, rows }] of (other?.counts ?? []).entries()) {
    const mine = best.counts[i]!.columns * best.counts[i]!.rows;
    if (columns * rows >= mine) continue;
    sheets += mine - columns * rows;
    saved.push(`${films[i]!.inkName} alone would take ${columns * rows} instead of ${mine}`);
  }
  if (sheets === 0) return [];
  return [
    `All films of a face lie the same way on their sheets, so that a printer's stretch is the same for every pull. That costs ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}: turned, ${saved.join('; ')}.`,
  ];
}
