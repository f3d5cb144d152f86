import type { Face } from './deck/index.ts';
import type { Ink, Job } from './job/index.ts';
import { countRun, emulsionAmount, inkAmount, meshFigures, type RunCount, USUAL } from './press/index.ts';
import { inkUseOf, lotsOf, meshOf, pullsOf } from './runOf.ts';
import { done, type Outcome } from './units/index.ts';

/** The ink of one pull over the run. */
export interface InkLine {
  readonly name: string;
  readonly ml: number;
  readonly grams: number;
  readonly pots: number;
  readonly potMl: number;
  readonly price: number | null;
}

/** A film as the counts need it. */
export interface CountedFilm {
  readonly face: Face;
  readonly inkId: string;
  readonly inkedCm2: number;
  readonly sheets: number;
}

export interface RunCounts {
  readonly count: RunCount;
  readonly inks: readonly InkLine[];
  readonly emulsionMl: number;
  /** Thing and amount, in words, as a person takes them to the shop. */
  readonly shopping: readonly (readonly [string, string])[];
}

/** The ink of a pull from what its film prints, for every blank of the run. */
export function inkLine(job: Job, face: Face, ink: Ink, inkedCm2: number): Outcome<InkLine> {
  const figures = meshFigures(meshOf(job, face, ink));
  if (!figures.ok) return figures;
  const use = inkUseOf(job, face, ink);
  const amount = inkAmount({
    ...use,
    inkedCm2,
    inkVolume: figures.value.result.inkVolume,
    decks: lotsOf(job).reduce((n, lot) => n + lot.start, 0),
    waste: job.press.waste ?? USUAL.waste.value,
  });
  if (!amount.ok) return amount;
  const { ml, grams, pots } = amount.value.result;
  return done({ name: `${ink.name} (${face})`, ml, grams, pots, potMl: use.potMl, price: use.price });
}

const many = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;

/** Decks, films, sheets, screens, ink and emulsion of the run, what to buy and what a good deck costs. */
export function runCounts(job: Job, films: readonly CountedFilm[]): Outcome<RunCounts> {
  const { press } = job;
  const inks: InkLine[] = [];
  for (const { face, ink } of pullsOf(job)) {
    const film = films.find((one) => one.face === face && one.inkId === ink.id);
    if (!film) continue;
    const line = inkLine(job, face, ink, film.inkedCm2);
    if (!line.ok) return line;
    inks.push(line.value);
  }
  const emulsion = emulsionAmount({
    width: press.frameWidth,
    length: press.frameLength,
    screens: films.length,
    coats: press.emulsion?.coats ?? USUAL.emulsionCoats.value,
    wetUm: press.emulsion?.wetUm ?? USUAL.emulsionWetUm.value,
    waste: press.emulsion?.waste ?? USUAL.emulsionWaste.value,
  });
  if (!emulsion.ok) return emulsion;
  const sheets = films.reduce((n, film) => n + film.sheets, 0);
  const priced = [
    ...inks.map(({ name, ml, potMl, price }) => ({ name, amount: ml, unit: 'ml', pack: potMl, price })),
    ...(press.sheetPrice === undefined
      ? []
      : [{ name: 'film sheets', amount: sheets, unit: 'sheets', pack: 1, price: press.sheetPrice }]),
  ];
  const counted = countRun({
    lots: lotsOf(job).map((lot) => ({ veneer: lot.veneer, colourway: lot.colourway, decks: lot.good })),
    pulls: films.length,
    spoilPerPull: press.spoilPerPull ?? USUAL.spoilPerPull.value,
    sheets: films.map((film) => film.sheets),
    goods: priced,
    deckPrice: press.deckPrice ?? null,
  });
  if (!counted.ok) return counted;
  const count = counted.value.result;
  const { ml } = emulsion.value.result;
  return done({
    count,
    inks,
    emulsionMl: ml,
    shopping: [
      ['Blank decks', many(count.start, 'deck')],
      ['Film sheets, and some spare', many(count.sheets, 'sheet')],
      ['Screens', `${count.screens} (${count.films} films)`],
      ['Emulsion', `${ml.toFixed(0)} ml`],
      ...inks.map(
        (ink) =>
          [
            ink.name,
            `${ink.ml.toFixed(0)} ml, ${ink.grams.toFixed(0)} g: ${many(ink.pots, 'pot')} of ${ink.potMl} ml`,
          ] as const,
      ),
    ],
  });
}
