import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { FACES, type Face } from '../../core/deck/index.ts';
import { faceMasks } from '../../core/faceMasks.ts';
import { type FacePreview, facePreview } from '../../core/facePreview.ts';
import { type FaceLayout, layOutFace } from '../../core/film/index.ts';
import type { Job } from '../../core/job/index.ts';
import { layOutRequest } from '../../core/layOutRequest.ts';
import type { Picture } from '../../core/raster/index.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { filmPlanner } from '../../renderer/workers/filmPlan.ts';

/**
 * The sheets the studio shows against those the export makes: the demonstration job from pictures at screen resolution
 * against the films' own masks. The one knows nothing of the other's pixels; lengths may differ by a point of the screen.
 */
const SCREEN_DPI = 132;
const FILM_DPI = 300;
const POINT = 25.4 / SCREEN_DPI;

let job: Job;
let art: ReadonlyMap<string, Uint8Array>;
const codec = sharpCodec();
const previews = new Map<Face, FacePreview>();
const made = new Map<Face, Awaited<ReturnType<typeof faceMasks>>>();

beforeAll(async () => {
  const demo = await demoJob(fileURLToPath(new URL('../../build/demo', import.meta.url)), nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  ({ job, art } = demo.value);
  // The press makes the print grow: the film is not as long as the wood, which is what a preview along the wood must not forget.
  const grown = { along: 0.006, across: 0.003 };
  const faces = Object.fromEntries(FACES.map((f) => [f, { ...job.faces[f], measuredGrowth: grown }]));
  job = { ...job, faces: faces as Job['faces'] };
  const pictures = new Map<string, Picture>();
  for (const piece of FACES.flatMap((f) => job.faces[f].art)) {
    const k = 3000 / Math.max(piece.widthPx, piece.heightPx);
    const drawn = await codec.rasterise(art.get(piece.hash)!, piece.name, {
      x: 0,
      y: 0,
      width: piece.widthPx,
      height: piece.heightPx,
      outWidth: Math.round(piece.widthPx * k),
      outHeight: Math.round(piece.heightPx * k),
    });
    if (!drawn.ok) throw new Error(drawn.reason);
    pictures.set(piece.hash, drawn.value);
  }
  for (const face of FACES) {
    const preview = facePreview({ job, face, pictures, dpi: SCREEN_DPI, traps: true });
    if (!preview.ok) throw new Error(preview.reason);
    previews.set(face, preview.value);
    made.set(face, await faceMasks(job, face, FILM_DPI, 'film', { art, codec, workers: inlineWorkers }));
  }
}, 300_000);

function exported(asked: Job, face: Face): FaceLayout {
  const masks = made.get(face)!;
  if (!masks.ok) throw new Error(masks.reason);
  const request = layOutRequest(asked, masks.value);
  if (!request.ok) throw new Error(request.reason);
  const layout = layOutFace(request.value);
  if (!layout.ok) throw new Error(layout.reason);
  return layout.value;
}

function shown(asked: Job, face: Face) {
  const planner = filmPlanner(asked, face, previews.get(face)!);
  if (!planner.ok) throw new Error(planner.reason);
  return planner.value(asked.faces[face].boundaries);
}

const seamsOf = (layout: FaceLayout, film: number) =>
  layout.films[film]!.sheets.flatMap((sheet) =>
    sheet.seams.filter((seam) => seam.with > sheet.index).map(({ band }) => band.x + band.width / 2),
  );

describe('sheets as the studio shows them', () => {
  for (const sheet of ['a4', 'letter', 'a3'])
    for (const face of FACES)
      test(`${face} on ${sheet}: as many as the export makes, as long, and meeting where a boundary was put`, () => {
        const plain = { ...job, printer: { ...job.printer, sheet } };
        const free = shown(plain, face);
        // Every boundary a few millimetres on, as a hand would put it, in the job's own film millimetres.
        const boundaries = Object.fromEntries(
          free.films
            .filter(({ film }) => film.boundaries.length > 0)
            .map(({ inkId, film }, i) => [inkId, film.boundaries.map((mm) => Math.round(mm) + (i % 2))]),
        );
        const faces = { ...plain.faces, [face]: { ...plain.faces[face], boundaries } };
        const asked = { ...plain, faces };
        const [plan, layout] = [shown(asked, face), exported(asked, face)];
        expect(plan.trouble).toBeNull();
        expect(plan.pages).toBe(layout.pages);
        for (const [i, film] of layout.films.entries()) {
          const seen = plan.films[i]!;
          expect(seen.film.sheets.length).toBe(film.sheets.length);
          // Ends are rounded out to whole points on both sides, and edges of art fall between points.
          for (const side of ['width', 'height'] as const)
            expect(Math.abs(seen.film.box[side] - film.box[side])).toBeLessThan(5 * POINT);
          const seams = seamsOf(layout, i);
          expect(seen.film.boundaries.length).toBe(seams.length);
          for (const [k, mm] of seams.entries()) {
            // Strips, and the length of a sheet that limits one after the other, are whole points of either.
            expect(Math.abs(seen.film.boundaries[k]! - mm)).toBeLessThan((2 + seams.length) * POINT);
            // A sheet that is already as long as the printer takes gives way no further.
            expect(Math.abs(boundaries[seen.inkId]![k]! - mm)).toBeLessThan(1.6);
          }
          // On the deck the film is longer by the growth it was corrected for, 0.6 %, and by a little of the flattening's
          // share: several millimetres over a whole film.
          if (film.box.width > 500) {
            const long = seen.box.width / seen.film.box.width;
            expect(long).toBeGreaterThan(1.005);
            expect(long).toBeLessThan(1.01);
          }
        }
      });

  test('each seam is listed once, with the lower of its two sheets', () => {
    const layout = exported(job, 'bottom');
    const plan = shown(job, 'bottom');
    for (const [i, film] of plan.films.entries()) {
      const seams = layout.films[i]!.sheets.flatMap((s) => s.seams.filter((seam) => seam.with > s.index));
      expect(film.film.sheets.flatMap((s) => s.cuts).length).toBe(seams.length);
      expect(film.film.sheets.at(-1)!.cuts).toEqual([]);
    }
  });
});
