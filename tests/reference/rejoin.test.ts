import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { FACES } from '../../core/deck/index.ts';
import { filmManifest, filmMask, layOutFace } from '../../core/film/index.ts';
import type { Art, FaceJob, Job, JobFile } from '../../core/job/index.ts';
import { layFaces } from '../../core/layFaces.ts';
import { layOutRequest } from '../../core/layOutRequest.ts';
import { filmsPdf } from '../../core/pdf/index.ts';
import { deflate } from '../../core/raster/index.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { TOOLS } from '../core/pdf/renderers.ts';
import { against, rejoined } from './rejoinFilms.ts';

/**
 * Every method on every kind of sheet, both faces: poppler takes the pictures out of films.pdf, films.json lays them, and
 * the masks come back pixel for pixel. At a low resolution always; by hand at others: KICKFLAT_REJOIN_DPI=600, and
 * KICKFLAT_REJOIN_SHEETS=a4,roll-610 or KICKFLAT_REJOIN_METHODS=spot for a part of it.
 */
const dpi = Number(process.env['KICKFLAT_REJOIN_DPI'] ?? 72);
const only = (name: string, all: readonly string[]): readonly string[] =>
  process.env[name]?.split(',') ?? all;
const SHEETS = only('KICKFLAT_REJOIN_SHEETS', [
  'letter',
  'legal',
  'tabloid',
  'a4',
  'a3',
  'roll-610',
  'custom',
]);
const WHOLE = process.env['KICKFLAT_REJOIN_DPI'] !== undefined;
const METHODS = only('KICKFLAT_REJOIN_METHODS', [
  'spot',
  'index',
  'halftone',
  'layered',
  'mixed',
]) as readonly Split[];

/** How a face is split; mixed: line work cut sharp among screened tones, ink by ink. */
type Split = FaceJob['method'] | 'mixed';

const codec = sharpCodec();
const dir = mkdtempSync(join(tmpdir(), 'kickflat-rejoin-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

/** The face split by a method; for layers, each ink has the drawing as its own layer, one of them as screened tones. */
function splitBy(face: FaceJob, method: Split): FaceJob {
  // Coarse enough for the lowest resolution; at 600 dpi a screen as fine as the trade has it for films made at home.
  const halftone = { lpi: Math.min(40, dpi / 6), dot: 'round' as const };
  if (method === 'mixed') {
    const inks = face.inks.map((ink, i) => (i % 2 === 0 ? { ...ink, split: 'spot' as const } : ink));
    return { ...face, method: 'halftone', halftone, inks };
  }
  if (method !== 'layered') return { ...face, method, halftone };
  const art = face.inks.flatMap((ink, i) =>
    face.art.map((piece): Art => {
      return {
        ...piece,
        id: `${piece.id}-${i}`,
        layer: { ink: ink.id, takes: i % 2 === 0 ? 'darkness' : 'alpha' },
      };
    }),
  );
  const inks = face.inks.map((ink, i) => (i === 0 ? { ...ink, split: 'halftone' as const } : ink));
  return { ...face, method, halftone, art, inks };
}

const onSheet = (job: Job, sheet: string): Job => ({
  ...job,
  printer: {
    ...job.printer,
    sheet,
    sheetWidth: 250,
    sheetHeight: 330,
    shareSheets: true,
  },
});

async function demonstration(method: Split): Promise<JobFile> {
  const demo = await demoJob(fileURLToPath(new URL('../../build/demo', import.meta.url)), nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  const { job } = demo.value;
  const { bottom, top } = job.faces;
  const faces = { bottom: splitBy(bottom, method), top: splitBy(top, method) };
  return { ...demo.value, job: { ...job, faces } };
}

describe.skipIf(!TOOLS.poppler)(`films put together again at ${dpi} dpi (needs poppler)`, () => {
  for (const method of METHODS) {
    test(`${method}: exact on ${SHEETS.join(', ')}`, async () => {
      const { job, art } = await demonstration(method);
      const faces = await layFaces({
        job,
        art,
        faces: FACES,
        codec,
        workers: inlineWorkers,
        dpi,
      });
      if (!faces.ok) throw new Error(faces.reason);
      for (const sheet of SHEETS) {
        const layouts = faces.value.map(({ made }) => {
          const asked = layOutRequest(onSheet(job, sheet), made);
          if (!asked.ok) throw new Error(asked.reason);
          const laid = layOutFace(asked.value);
          if (!laid.ok) throw new Error(laid.reason);
          return laid.value;
        });
        const manifest = filmManifest(job.name, layouts, () => ({
          x: 0,
          y: 0,
        }));
        const films = layouts.flatMap((layout) => layout.films);
        expect(manifest.films.length).toBe(films.length);
        const pdf = join(dir, 'films.pdf');
        writeFileSync(pdf, await filmsPdf(layouts, { jobName: job.name, deflate }));
        let [wrong, inked] = [0, 0];
        for (const [i, film] of films.entries()) {
          const found = against(filmMask(film), rejoined(pdf, manifest, manifest.films[i]!, dir));
          wrong += found.wrong;
          inked += found.inked;
        }
        if (WHOLE)
          console.info(
            `| ${method} | ${sheet} | ${dpi} | ${manifest.films.length} | ${manifest.films.reduce((n, f) => n + f.sheets.length, 0)} | ${wrong} of ${inked} |`,
          );
        expect(inked).toBeGreaterThan(0);
        expect({ sheet, wrong }).toEqual({ sheet, wrong: 0 });
      }
    }, 3_600_000);
  }
});
