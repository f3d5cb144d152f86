import { strToU8 } from 'fflate';
import { FACES, type Face } from './deck/index.ts';
import { eachFilm } from './eachFilm.ts';
import type { MaskTools } from './faceMasks.ts';
import { deckAndHoles, faceProof } from './facePreview.ts';
import type { FilmPrinter } from './film/index.ts';
import type { MeshLoss, MeshLossInput } from './filmFineness.ts';
import { canonicalJson, DEFAULT_HALFTONE, type Job, screenAngle, screenedInks } from './job/index.ts';
import { jobPrinter } from './jobPrinter.ts';
import { type LaidFace, layFaces } from './layFaces.ts';
import { calibrationFiles } from './makeCalibration.ts';
import { type ProofPlates, proofPlates } from './makeProof.ts';
import { type RunSheet, runSheetPdf, type SheetPull, stepTestPdf, tonePatchesPdf } from './pdf/index.ts';
import type { Deflate } from './ports/index.ts';
import { cautionsFor, planRun, type RunPlan, USUAL } from './press/index.ts';
import { meshOfFilm, pullSheet } from './pullSheet.ts';
import { type RunCounts, runCounts } from './runCounts.ts';
import { hoursOf, lotsOf, printedFaces } from './runOf.ts';
import { runPlanInput } from './runPlanInput.ts';
import { jobTrouble } from './sentences/index.ts';
import { cancelled, done, type Outcome, type Progress } from './units/index.ts';
import { drawingFiles, workshopDrawings } from './workshopDrawings.ts';

export interface PressRequest extends MaskTools {
  readonly job: Job;
  readonly deflate: Deflate;
  /** Instead of the printer's own. */
  readonly dpi?: number | undefined;
  /** The faces' films, where they were laid out before: for films and press sheets from one separation. */
  readonly laid?: readonly LaidFace[];
}

export interface PressSet {
  /** Complete files by name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly notes: readonly string[];
}

/** Strips of the step-test film. */
const STRIPS = 9;
const PROOF_DPI = 60;

/** Whether the films of a face show it as it prints: no ink is drawn in for what its mesh spreads, no dots for what they gain. */
function filmsShowPrint(job: Job, face: Face): boolean {
  const settings = job.faces[face];
  return !settings.inks.some((ink) => (ink.gain ?? 0) > 0) && screenedInks(settings).length === 0;
}

/** What a face's proofs are made from: its films where they show it, else separated again for proofs. */
async function platesOf(request: PressRequest, { made }: LaidFace): Promise<Outcome<ProofPlates>> {
  const { job } = request;
  const { raster, separations, prints } = made;
  const { face, box, width, height, dpi } = raster;
  if (!filmsShowPrint(job, face)) return proofPlates({ ...request, face, dpi: PROOF_DPI });
  const preview = { box, width, height, dpi, separations, prints, ...deckAndHoles(raster, job) };
  return done({ preview, reduce: Math.max(1, Math.round(dpi / PROOF_DPI)) });
}

/** A proof of each face, on every lot's wood for the bottom, on the first lot's for the top. */
async function proofsOf(
  request: PressRequest,
  laid: readonly LaidFace[],
): Promise<Outcome<RunSheet['proofs']>> {
  const { job } = request;
  const proofs: RunSheet['proofs'][number][] = [];
  for (const one of laid) {
    const { face } = one.laid;
    const plates = await platesOf(request, one);
    if (!plates.ok) return plates;
    const shown = face === 'bottom' ? lotsOf(job) : lotsOf(job).slice(0, 1);
    for (const { veneer, colourway, veneerId, colourwayId } of shown.slice(0, 6))
      proofs.push({
        name: `${face}: ${veneer}, ${colourway}`,
        picture: faceProof({ ...plates.value, job, face, veneerId, colourwayId }),
      });
  }
  return done(proofs);
}

/** The pages of all pulls, each film measured against its mesh. */
async function pullsOf(
  request: PressRequest,
  laid: readonly LaidFace[],
  say: Progress,
): Promise<Outcome<SheetPull[]>> {
  const { job, workers, abort } = request;
  const pulls: SheetPull[] = [];
  for (const [i, { laid: layout }] of laid.entries()) {
    const { face, films, dpi } = layout;
    const measuring = (ready: number) =>
      say((i + ready / films.length) / laid.length, `${face}: measuring the finest lines`);
    measuring(0);
    const made = await eachFilm(
      films,
      request,
      async (film, mask) => {
        const mesh = meshOfFilm(job, face, film);
        if (!mesh.ok) return mesh;
        const { holds } = mesh.value;
        const loss = await workers.run<MeshLossInput, MeshLoss>('meshLoss', { mask, dpi, holds }, abort);
        return pullSheet(job, layout, film, loss);
      },
      measuring,
    );
    if (!made.ok) return made;
    pulls.push(...made.value);
  }
  return done(pulls);
}

/** The films of all faces that have something to print, laid out now unless they were before. */
async function filmsOf(request: PressRequest, say: Progress): Promise<Outcome<readonly LaidFace[]>> {
  if (request.laid) return done(request.laid);
  const { job } = request;
  const faces = printedFaces(job).filter((face) => job.faces[face].art.some((piece) => !piece.hidden));
  if (faces.length === 0) return jobTrouble.nothingToPrint();
  return layFaces({ ...request, faces, progress: say });
}

/** The calibration sheets and the step-test film; a note for each that the sheet is too small for. */
async function testFiles(printer: FilmPrinter, deflate: Deflate, files: Map<string, Uint8Array>) {
  const notes: string[] = [];
  const calibration = await calibrationFiles(printer, deflate);
  if (calibration.ok) for (const [name, bytes] of calibration.value) files.set(name, bytes);
  else notes.push(`No calibration sheet: ${calibration.reason}`);
  const steps = await stepTestPdf(printer, { strips: STRIPS, factor: USUAL.stepFactor.value, deflate });
  if (steps.ok) files.set('step-test.pdf', steps.value);
  else notes.push(`No step-test film: ${steps.reason}`);
  return notes;
}

/** A film of tone patches for each face that screens dots, in the screen of its last such ink, which is the darkest as a rule. */
async function toneFiles(
  { job, dpi, deflate }: PressRequest,
  printer: FilmPrinter,
  files: Map<string, Uint8Array>,
) {
  const notes: string[] = [];
  const faces = FACES.filter((face) => screenedInks(job.faces[face]).length > 0);
  for (const face of faces) {
    const settings = job.faces[face];
    const { lpi, dot } = settings.halftone ?? DEFAULT_HALFTONE;
    const angle = screenAngle(settings, screenedInks(settings).at(-1) as number);
    const page = await tonePatchesPdf(printer, {
      screen: { lpi, dot, angle },
      dpi: dpi ?? job.printer.dpi,
      deflate,
    });
    const name = faces.length === 1 ? 'tone-patches.pdf' : `tone-patches-${face}.pdf`;
    if (page.ok) files.set(name, page.value);
    else notes.push(`No tone patches: ${page.reason}`);
  }
  return notes;
}

/** press.json: what the run sheet says, for other programs. */
const manifestOf = (job: Job, pulls: readonly SheetPull[], counts: RunCounts, plan: RunPlan | null) => ({
  version: 1,
  job: job.name,
  counts: counts.count,
  emulsionMl: counts.emulsionMl,
  inks: counts.inks.map(({ name, ml, grams, pots }) => ({ name, ml, grams, pots })),
  pulls: pulls.map(({ film, layout, settings, warnings }) => ({
    face: layout.face,
    pull: film.art.pull,
    ink: film.art.inkName,
    inkedCm2: film.inkedCm2,
    settings: Object.fromEntries(settings),
    warnings,
  })),
  plan: plan ? { end: plan.end, atLeast: plan.atLeast, tasks: plan.placed } : null,
});

/** Run sheet, jig, squeegee and form, calibration sheet and step-test film of a job. */
export async function makePress(request: PressRequest): Promise<Outcome<PressSet>> {
  const { job, deflate, abort } = request;
  const say: Progress = request.progress ?? (() => {});
  const laid = await filmsOf(request, (share, text) => say(0.6 * share, text));
  if (!laid.ok) return laid;
  const printed = jobPrinter(job);
  if (!printed.ok) return printed;
  const { printer } = printed.value;
  const made = await pullsOf(request, laid.value, (share, text) => say(0.6 + 0.12 * share, text));
  if (!made.ok) return made;
  const pulls = made.value;
  const { drawings, notes } = workshopDrawings(job);
  say(0.72, 'proofs');
  const proofs = await proofsOf(request, laid.value);
  if (!proofs.ok) return proofs;
  if (abort?.aborted) return cancelled();
  say(0.85, 'plan and counts');
  const planned = planRun(runPlanInput(job));
  if (!planned.ok) notes.push(`No plan: ${planned.reason} ${planned.mend}`);
  const plan = planned.ok ? planned.value.result : null;
  const counted = runCounts(
    job,
    pulls.map(({ film, layout }) => ({
      face: layout.face,
      inkId: film.art.inkId,
      inkedCm2: film.inkedCm2,
      sheets: film.sheets.length,
    })),
  );
  if (!counted.ok) return counted;
  const { good, start, sheets, costPerDeck } = counted.value.count;
  const sheet: RunSheet = {
    jobName: job.name,
    shop: job.shop,
    notes: job.notes,
    pulls,
    lots: lotsOf(job),
    counts: [
      ['good decks', String(good)],
      ['blanks to start with', String(start)],
      ['pulls on a deck', String(pulls.length)],
      ['film sheets', String(sheets)],
      ...(costPerDeck === null ? [] : [['cost a deck', costPerDeck.toFixed(2)] as const]),
    ],
    shopping: counted.value.shopping,
    proofs: proofs.value,
    plan,
    hours: hoursOf(job),
    firstWeekday: runPlanInput(job).firstWeekday,
    cautions: cautionsFor(['any', 'films', 'coating', 'exposure', 'washing', 'cleaning', 'coats', 'wood']),
    paper: paperOf(printer),
  };
  say(0.88, 'run sheet');
  const files = new Map<string, Uint8Array>();
  files.set('run-sheet.pdf', await runSheetPdf(sheet, { deflate }));
  say(0.94, 'jig and templates');
  const drawn = await drawingFiles(job.name, drawings, printer, deflate);
  if (!drawn.ok) return drawn;
  for (const [name, bytes] of drawn.value) files.set(name, bytes);
  notes.push(...(await testFiles(printer, deflate, files)));
  notes.push(...(await toneFiles(request, printer, files)));
  files.set('press.json', strToU8(canonicalJson(manifestOf(job, pulls, counted.value, plan))));
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
