import { strToU8 } from 'fflate';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { faceProof } from './facePreview.ts';
import {
  type FaceLayout,
  type FilmLayout,
  type FilmPrinter,
  filmMask,
  type LayOutRequest,
} from './film/index.ts';
import { canonicalJson, type Job } from './job/index.ts';
import { layOutRequest } from './layOutRequest.ts';
import { proofPlates } from './makeProof.ts';
import {
  calibrationPdf,
  type RunSheet,
  runSheetPdf,
  type SheetPull,
  stepTestPdf,
  templatesPdf,
} from './pdf/index.ts';
import type { Deflate } from './ports/index.ts';
import {
  adviseMesh,
  cautionsFor,
  countRun,
  type Drawing,
  drawing,
  drawingDxf,
  drawingSvg,
  emulsionAmount,
  finestFeatures,
  inkAmount,
  jigDrawing,
  meshFigures,
  planRun,
  sectionOf,
  squeegeeDrawing,
  thinPlaces,
  USUAL,
} from './press/index.ts';
import { complement, type Mask } from './raster/index.ts';
import { hoursOf, inkIn, inkUseOf, jigOf, lotsOf, meshOf, printedFaces, runPlanInput } from './runOf.ts';
import { badInput, cancelled, done, type Outcome, type Progress } from './units/index.ts';

export interface PressRequest extends MaskTools {
  readonly job: Job;
  readonly deflate: Deflate;
  /** Instead of the printer's own. */
  readonly dpi?: number;
}

export interface PressSet {
  /** Complete files by name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly notes: readonly string[];
}

/** mm: features wider than this are no trouble to any mesh of the table. */
const FINE = 0.5;
/** Rings on a pull's picture. */
const MOST_PLACES = 12;
/** Strips of the step-test film. */
const STRIPS = 9;
const PROOF_DPI = 60;

/** A film with the numbers of its page. */
function pullOf(job: Job, layout: FaceLayout, film: FilmLayout): Outcome<{ page: SheetPull; ink: InkLine }> {
  const { face } = layout;
  const ink = job.faces[face].inks[film.art.pull - 1];
  if (!ink) throw new Error('A film has no ink.');
  const mesh = meshOf(job, face, ink);
  const figures = meshFigures(mesh);
  if (!figures.ok) return figures;
  const use = inkUseOf(job, face, ink);
  const lots = lotsOf(job);
  const decks = lots.reduce((n, lot) => n + lot.start, 0);
  const amount = inkAmount({
    ...use,
    inkedCm2: film.inkedCm2,
    inkVolume: figures.value.result.inkVolume,
    decks,
    waste: job.press.waste ?? USUAL.waste.value,
  });
  if (!amount.ok) return amount;
  const mask = filmMask(film);
  const fine = finestFeatures(mask, layout.dpi, FINE);
  const lpi = film.art.screen?.lpi;
  const own = job.press.ownMeshes;
  const advice = adviseMesh({
    ...fine,
    kind: ink.kind,
    chosen: mesh,
    ...(lpi === undefined ? {} : { lpi }),
    ...(own && own.length > 0 ? { stock: own as unknown as (typeof mesh)[] } : {}),
  });
  if (!advice.ok) return advice;
  const { good, warnings } = advice.value.result;
  const best = good[0];
  const { finestLine } = figures.value.result;
  const lost = warnings.length === 0 ? [] : placesBelow(mask, film, layout.dpi, finestLine);
  const width = (mm: number | null) => (mm === null ? `over ${FINE} mm` : `${(mm as number).toFixed(2)} mm`);
  const section = sectionOf(job.deck, face);
  const { ml, grams, pots } = amount.value.result;
  const exposure = job.press.exposure?.time;
  return done({
    page: {
      layout,
      film,
      kind: ink.kind,
      settings: [
        ['mesh, threads/cm and µm', `${mesh.countPerCm}-${mesh.threadUm}`],
        ['finest line', width(fine.line)],
        ['finest gap', width(fine.gap)],
        ['ink for the run', `${ml.toFixed(0)} ml, ${grams.toFixed(0)} g`],
        ['printing strokes', String(use.passes)],
        ['off-contact', `${job.press.offContact} mm`],
        [
          'squeegee blade',
          `${job.press.blade} mm, ${section.depth > 0 ? (face === 'bottom' ? 'concave' : 'convex') : 'straight'}`,
        ],
        ['exposure', exposure === undefined ? '______ s' : `${exposure} s`],
        ['film', `${film.sheets.length} ${film.sheets.length === 1 ? 'sheet' : 'sheets'}`],
      ],
      fine: lost.slice(0, MOST_PLACES),
      warnings: [
        ...(warnings.length > 0 ? [warnings.join(' ')] : []),
        ...(lost.length > 0
          ? [
              `${lost.length} ${lost.length === 1 ? 'place is' : 'places are'} too fine for this mesh${lost.length > MOST_PLACES ? '; the largest are ringed' : ', ringed above'}.`,
            ]
          : []),
        ...(warnings.length > 0
          ? [
              best
                ? `Of ${own && own.length > 0 ? 'your' : 'the usual'} meshes, ${best.countPerCm}-${best.threadUm} holds it with the thickest ink.`
                : 'No mesh at hand holds all of it: thicken what is fine, or print it in another ink.',
            ]
          : []),
      ],
      steps: [
        `Film checked over pull 1, toner side to the emulsion${job.printer.mirror ? ' (these films are mirrored: bare side to the emulsion)' : ''}.`,
        'Screen dry, pinholes closed, edges taped.',
        'Jig bolts through the holes, nose to the right; frame in its hinge clamps.',
        'Test on paper, then on a spoiled deck; read the verniers, move the clamps, write it below.',
        `Ink stirred: ${ink.name}; weigh the pot: ________ g.`,
      ],
      lots: lots.map((lot) => {
        const own = inkIn(job, ink, lot.colourwayId);
        return { ...lot, ink: own.name, inkHex: own.hex };
      }),
      earlier: (job.press.registerTests ?? [])
        .filter((test) => test.face === face && test.inkId === ink.id)
        .map((test) => `${test.words} (${test.left.toFixed(2)} mm left)`),
      cautions: cautionsFor(['printing', 'clamps']),
    },
    ink: { name: `${ink.name} (${face})`, ml, grams, pots, potMl: use.potMl, price: use.price },
  });
}

/** Where lines and gaps are finer than the mesh holds, film mm, the largest first. */
function placesBelow(mask: Mask, film: FilmLayout, dpi: number, width: number): [number, number][] {
  const mm = 25.4 / dpi;
  const { x, y, height } = film.box;
  return [...thinPlaces(mask, dpi, width), ...thinPlaces(complement(mask), dpi, width)]
    .sort((a, b) => b.areaPx - a.areaPx)
    .map(({ box }) => [x + (box.x + box.width / 2) * mm, y + height - (box.y + box.height / 2) * mm]);
}

interface InkLine {
  readonly name: string;
  readonly ml: number;
  readonly grams: number;
  readonly pots: number;
  readonly potMl: number;
  readonly price: number | null;
}

/** Every workshop drawing of the job: a jig, a squeegee and its form for each printed face. */
export function pressDrawings(job: Job): { drawings: Drawing[]; notes: string[] } {
  const drawings: Drawing[] = [];
  const notes: string[] = [];
  const take = (made: Outcome<Drawing>, what: string) => {
    if (made.ok) drawings.push(made.value);
    else notes.push(`No ${what}: ${made.reason} ${made.mend}`);
  };
  for (const face of printedFaces(job)) {
    take(jigDrawing(job.deck, face, jigOf(job)), `jig for the ${face}`);
    const { blade, plies } = job.press;
    take(
      squeegeeDrawing({ ...sectionOf(job.deck, face), blade, plies: plies ?? USUAL.plies.value }),
      `squeegee for the ${face}`,
    );
  }
  return { drawings, notes };
}

/** A drawing for paper: the frame needs no sheets of its own. */
const onPaper = (made: Drawing): Drawing =>
  drawing(
    made.name,
    made.title,
    made.items.filter((item) => item.layer !== 'frame'),
    2,
  );

/** A proof of each face that has art, on the first lot's wood. */
async function proofsOf(request: PressRequest): Promise<Outcome<RunSheet['proofs']>> {
  const { job } = request;
  const proofs: { name: string; picture: RunSheet['proofs'][number]['picture'] }[] = [];
  for (const face of printedFaces(job)) {
    const plates = await proofPlates({ ...request, face, dpi: PROOF_DPI });
    if (!plates.ok) return plates;
    const shown = face === 'bottom' ? lotsOf(job) : lotsOf(job).slice(0, 1);
    for (const lot of shown.slice(0, 6))
      proofs.push({
        name: `${face}: ${lot.veneer}, ${lot.colourway}`,
        picture: faceProof({
          ...plates.value,
          job,
          face,
          veneerId: lot.veneerId,
          colourwayId: lot.colourwayId,
        } as Parameters<typeof faceProof>[0]),
      });
  }
  return done(proofs);
}

/** Run sheet, jig, squeegee and form, calibration sheet and step-test film of a job. */
export async function makePress(request: PressRequest): Promise<Outcome<PressSet>> {
  const { job, deflate, abort } = request;
  const say: Progress = request.progress ?? (() => {});
  const dpi = request.dpi ?? job.printer.dpi;
  const faces = printedFaces(job).filter((face) => job.faces[face].art.some((piece) => !piece.hidden));
  if (faces.length === 0)
    return badInput(
      'This job has no art and inks yet.',
      'Add some with kickflat add JOB --art FILE, or in the studio.',
    );
  const { drawings, notes } = pressDrawings(job);
  const pulls: SheetPull[] = [];
  const inks: InkLine[] = [];
  let printer: FilmPrinter | null = null;
  for (const [i, face] of faces.entries()) {
    const made = await faceMasks(job, face, dpi, 'film', {
      ...request,
      progress: (share, text) => say((0.7 * (i + share * 0.7)) / faces.length, text),
    });
    if (!made.ok) return made;
    const asked = layOutRequest(job, made.value);
    if (!asked.ok) return asked;
    printer = asked.value.printer;
    const laid = await request.workers.run<LayOutRequest, Outcome<FaceLayout>>(
      'layOutFace',
      asked.value,
      abort,
    );
    if (!laid.ok) return laid;
    for (const film of laid.value.films) {
      if (abort?.aborted) return cancelled();
      say((0.7 * (i + 0.75)) / faces.length, `${face}: measuring the finest lines of ${film.art.inkName}`);
      const pull = pullOf(job, laid.value, film);
      if (!pull.ok) return pull;
      pulls.push(pull.value.page);
      inks.push(pull.value.ink);
    }
  }
  if (!printer) throw new Error('Faces were laid out without a printer.');
  say(0.72, 'proofs');
  const proofs = await proofsOf(request);
  if (!proofs.ok) return proofs;
  if (abort?.aborted) return cancelled();
  say(0.85, 'plan and counts');
  const planned = planRun(runPlanInput(job));
  if (!planned.ok) notes.push(`No plan: ${planned.reason} ${planned.mend}`);
  const lots = lotsOf(job);
  const emulsion = emulsionAmount({
    width: job.press.frameWidth,
    length: job.press.frameLength,
    screens: pulls.length,
    coats: job.press.emulsion?.coats ?? USUAL.emulsionCoats.value,
    wetUm: job.press.emulsion?.wetUm ?? USUAL.emulsionWetUm.value,
    waste: job.press.emulsion?.waste ?? USUAL.emulsionWaste.value,
  });
  if (!emulsion.ok) return emulsion;
  const counted = countRun({
    lots: lots.map((lot) => ({ veneer: lot.veneer, colourway: lot.colourway, decks: lot.good })),
    pulls: pulls.length,
    spoilPerPull: job.press.spoilPerPull ?? USUAL.spoilPerPull.value,
    sheets: pulls.map(({ film }) => film.sheets.length),
    goods: inks.map(({ name, ml, potMl, price }) => ({ name, amount: ml, unit: 'ml', pack: potMl, price })),
    deckPrice: job.press.deckPrice ?? null,
  });
  if (!counted.ok) return counted;
  const { good, start, films, sheets, screens, costPerDeck } = counted.value.result;
  const many = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;
  const sheet: RunSheet = {
    jobName: job.name,
    shop: job.shop,
    notes: job.notes,
    pulls,
    lots,
    counts: [
      ['good decks', String(good)],
      ['blanks to start with', String(start)],
      ['pulls on a deck', String(pulls.length)],
      ['film sheets', String(sheets)],
      ...(costPerDeck === null ? [] : [['cost a deck', costPerDeck.toFixed(2)] as const]),
    ],
    shopping: [
      ['Blank decks', many(start, 'deck')],
      ['Film sheets, and some spare', many(sheets, 'sheet')],
      ['Screens', `${screens} (${films} films)`],
      ['Emulsion', `${emulsion.value.result.ml.toFixed(0)} ml`],
      ...inks.map(
        ({ name, ml, grams, pots, potMl }) =>
          [name, `${ml.toFixed(0)} ml, ${grams.toFixed(0)} g: ${many(pots, `pot`)} of ${potMl} ml`] as const,
      ),
    ],
    proofs: proofs.value,
    plan: planned.ok ? planned.value.result : null,
    hours: hoursOf(job),
    firstWeekday: runPlanInput(job).firstWeekday,
    cautions: cautionsFor(['any', 'films', 'coating', 'exposure', 'washing', 'cleaning', 'coats', 'wood']),
    paper: paperOf(printer),
  };
  say(0.88, 'run sheet');
  const files = new Map<string, Uint8Array>();
  files.set('run-sheet.pdf', await runSheetPdf(sheet, { deflate }));
  say(0.94, 'jig and templates');
  for (const [name, title, list] of [
    ['jig.pdf', `${job.name}: jig`, drawings.filter((d) => d.name.startsWith('jig')).map(onPaper)],
    ['squeegee.pdf', `${job.name}: squeegee and form`, drawings.filter((d) => d.name.startsWith('squeegee'))],
  ] as const) {
    if (list.length === 0) continue;
    const made = await templatesPdf(list, printer, { title, deflate });
    if (!made.ok) return made;
    files.set(name, made.value);
  }
  for (const made of drawings) {
    files.set(`${made.name}.svg`, strToU8(drawingSvg(made)));
    files.set(`${made.name}.dxf`, strToU8(drawingDxf(made)));
  }
  const calibration = await calibrationPdf(printer, { deflate, corrected: false });
  if (calibration.ok) files.set('calibration.pdf', calibration.value);
  else notes.push(`No calibration sheet: ${calibration.reason}`);
  // Once the printer is measured, a page that proves it: every length on it must be as stated.
  if (printer.scaleX !== 1 || printer.scaleY !== 1 || (printer.skewDeg ?? 0) !== 0) {
    const check = await calibrationPdf(printer, { deflate, corrected: true });
    if (check.ok) files.set('calibration-check.pdf', check.value);
  }
  const steps = await stepTestPdf(printer, { strips: STRIPS, factor: USUAL.stepFactor.value, deflate });
  if (steps.ok) files.set('step-test.pdf', steps.value);
  else notes.push(`No step-test film: ${steps.reason}`);
  const manifest = {
    version: 1,
    job: job.name,
    counts: counted.value.result,
    emulsionMl: emulsion.value.result.ml,
    inks: inks.map(({ name, ml, grams, pots }) => ({ name, ml, grams, pots })),
    pulls: pulls.map(({ film, layout, settings, warnings }) => ({
      face: layout.face,
      pull: film.art.pull,
      ink: film.art.inkName,
      inkedCm2: film.inkedCm2,
      settings: Object.fromEntries(settings),
      warnings,
    })),
    plan: planned.ok
      ? {
          end: planned.value.result.end,
          atLeast: planned.value.result.atLeast,
          tasks: planned.value.result.placed,
        }
      : null,
  };
  files.set('press.json', strToU8(canonicalJson(manifest)));
  if (abort?.aborted) return cancelled();
  say(1, 'done');
  return done({ files, notes });
}

/** The run sheet goes on the films' own sheet size when a person can read a page of it, else on A4. */
function paperOf({ sheet }: FilmPrinter): { width: number; height: number } {
  const { width, height } = sheet;
  return width >= 200 && width <= 330 && height >= 270 && height <= 490
    ? { width, height }
    : { width: 210, height: 297 };
}
