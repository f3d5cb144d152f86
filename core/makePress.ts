import { strToU8 } from 'fflate';
import { faceMasks, type MaskTools } from './faceMasks.ts';
import { faceProof } from './facePreview.ts';
import type { FaceLayout, FilmPrinter, LayOutRequest } from './film/index.ts';
import { canonicalJson, type Job } from './job/index.ts';
import { layOutRequest } from './layOutRequest.ts';
import { proofPlates } from './makeProof.ts';
import { calibrationPdf, type RunSheet, runSheetPdf, type SheetPull, stepTestPdf } from './pdf/index.ts';
import type { Deflate } from './ports/index.ts';
import { cautionsFor, planRun, type RunPlan, USUAL } from './press/index.ts';
import { pullSheet } from './pullSheet.ts';
import { type RunCounts, runCounts } from './runCounts.ts';
import { hoursOf, lotsOf, printedFaces } from './runOf.ts';
import { runPlanInput } from './runPlanInput.ts';
import { badInput, cancelled, done, type Outcome, type Progress } from './units/index.ts';
import { drawingFiles, workshopDrawings } from './workshopDrawings.ts';

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

/** Strips of the step-test film. */
const STRIPS = 9;
const PROOF_DPI = 60;

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

/** The pages of all pulls, each film measured, and the printer they are laid out for. */
async function pullsWith(
  request: PressRequest,
  say: Progress,
): Promise<Outcome<{ pulls: SheetPull[]; printer: FilmPrinter }>> {
  const { job, abort } = request;
  const dpi = request.dpi ?? job.printer.dpi;
  const faces = printedFaces(job).filter((face) => job.faces[face].art.some((piece) => !piece.hidden));
  const pulls: SheetPull[] = [];
  let printer: FilmPrinter | null = null;
  for (const [i, face] of faces.entries()) {
    const made = await faceMasks(job, face, dpi, 'film', {
      ...request,
      progress: (share, text) => say((i + share * 0.7) / faces.length, text),
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
      say((i + 0.75) / faces.length, `${face}: measuring the finest lines of ${film.art.inkName}`);
      const pull = pullSheet(job, laid.value, film);
      if (!pull.ok) return pull;
      pulls.push(pull.value);
    }
  }
  if (!printer)
    return badInput(
      'This job has no art and inks yet.',
      'Add some with kickflat add JOB --art FILE, or in the studio.',
    );
  return done({ pulls, printer });
}

/** The calibration sheets and the step-test film; a note for each that the sheet is too small for. */
async function testFiles(printer: FilmPrinter, deflate: Deflate, files: Map<string, Uint8Array>) {
  const notes: string[] = [];
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
  const made = await pullsWith(request, (share, text) => say(0.7 * share, text));
  if (!made.ok) return made;
  const { pulls, printer } = made.value;
  const { drawings, notes } = workshopDrawings(job);
  say(0.72, 'proofs');
  const proofs = await proofsOf(request);
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
