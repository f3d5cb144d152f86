import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FACES } from '../../core/deck/index.ts';
import type { FilmManifest } from '../../core/film/index.ts';
import { type FilmSet, makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { TOOLS } from '../core/pdf/renderers.ts';
import {
  type Bits,
  bitsOfPng,
  markedPixels,
  pagePictures,
  pageWalk,
  popplerPage,
  windowPixels,
} from './filmPages.ts';
import { bit, cellMeans, differences, painted, RENDERERS, shownBy } from './threeRenderers.ts';

/**
 * The demonstration job's films as a stranger would check them: films.json read by hand, pages by poppler, structure by
 * qpdf. Nothing here calls our own code for places, cutting or joining. By hand also at other resolutions and sheets:
 * KICKFLAT_FILMS_DPI=1200 KICKFLAT_FILMS_SHEET=a4; KICKFLAT_FILMS_PAGES=all.
 */
const dpi = Number(process.env['KICKFLAT_FILMS_DPI'] ?? 300);
const sheetName = process.env['KICKFLAT_FILMS_SHEET'];
/** Small films share their sheets unless the environment says otherwise, so that such pages are checked too. */
const shareSheets = process.env['KICKFLAT_FILMS_SHARE'] !== 'no';

let dir: string;
let made: FilmSet;
let manifest: FilmManifest;
let pdf: string;

/** All pages are shown by three programs where the environment says so, else the first page of every film. */
const everyPage = process.env['KICKFLAT_FILMS_PAGES'] === 'all';
const PAIRS = [
  [0, 1],
  [0, 2],
  [1, 2],
] as const;

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-demo-films-'));
  const codec = sharpCodec();
  const demo = await demoJob(fileURLToPath(new URL('../../build/demo', import.meta.url)), nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  const { job, art } = demo.value;
  const printer = { ...job.printer, shareSheets, ...(sheetName ? { sheet: sheetName } : {}) };
  const set = await makeFilms({
    job: { ...job, printer },
    art,
    faces: ['bottom', 'top'],
    codec,
    workers: inlineWorkers,
    deflate,
    masks: true,
    composite: true,
    dpi,
  });
  if (!set.ok) throw new Error(set.reason);
  made = set.value;
  pdf = join(dir, 'films.pdf');
  for (const [name, bytes] of made.files) writeFileSync(join(dir, name), bytes);
  manifest = JSON.parse(Buffer.from(made.files.get('films.json')!).toString('utf8')) as FilmManifest;
}, 300_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

type Film = FilmManifest['films'][number];
const maskOf = (film: Film): Promise<Bits> => {
  const name = [...made.files.keys()].find((one) => one.startsWith(`mask-${film.face}-${film.pull}-`))!;
  return bitsOfPng(join(dir, name));
};

/** A window's pixels laid into the whole film, row by row. */
function layIn(
  whole: Bits,
  at: { x: number; y: number; width: number; height: number },
  pixel: (x: number, y: number) => number,
) {
  for (let y = 0; y < at.height; y++) {
    const row = (y + at.y) * whole.width + at.x;
    for (let x = 0; x < at.width; x++) whole.at[row + x]! |= pixel(x, y);
  }
}

/** mm that no cut line or mark may come near ink; a stencil's edge needs them blank (common practice, no source). */
const CLEAR = 0.3;

/** Is a pixel of `bits` inked whose middle lies less than `mm` from that of pixel (x, y)? */
function inkedWithin(bits: Bits, x: number, y: number, mm: number): boolean {
  const reach = (mm * dpi) / 25.4;
  const n = Math.floor(reach);
  for (let j = Math.max(0, y - n); j <= Math.min(bits.height - 1, y + n); j++) {
    const wide = Math.floor(Math.sqrt(reach * reach - (j - y) * (j - y)));
    for (let i = Math.max(0, x - wide); i <= Math.min(bits.width - 1, x + wide); i++)
      if (bits.at[j * bits.width + i] === 1) return true;
  }
  return false;
}

const blank = ({ width, height }: Bits): Bits => ({ width, height, at: new Uint8Array(width * height) });

describe(`films of the demonstration job at ${dpi} dpi`, () => {
  test.skipIf(!TOOLS.qpdf)(
    'pass a structure checker, and every page is the sheet films.json names (needs qpdf and poppler)',
    () => {
      for (const name of ['films.pdf', 'assembly.pdf'])
        expect(execFileSync('qpdf', ['--check', join(dir, name)]).toString()).toMatch(
          /No syntax or stream encoding errors/,
        );
      const pages = new Set(manifest.films.flatMap((film) => film.sheets.map((sheet) => sheet.page)));
      const info = execFileSync('pdfinfo', ['-f', '1', '-l', String(pages.size), pdf]).toString();
      expect(info).toMatch(new RegExp(`^Pages: +${pages.size}$`, 'm'));
      expect([...pages].sort((a, b) => a - b)).toEqual(Array.from({ length: pages.size }, (_, i) => i + 1));
      const sizes = [...info.matchAll(/^Page +\d+ size: +([\d.]+) x ([\d.]+) pts/gm)];
      expect(sizes.length).toBe(pages.size);
      for (const [, width, height] of sizes) {
        // pdfinfo prints points to two or three places.
        expect((Number(width) * 25.4) / 72).toBeCloseTo(manifest.sheet.width, 2);
        expect((Number(height) * 25.4) / 72).toBeCloseTo(manifest.sheet.height, 2);
      }
    },
  );

  test.skipIf(!TOOLS.poppler)(
    'pictures taken out of the pages and laid by films.json are the masks, pixel for pixel (needs poppler)',
    async () => {
      for (const film of manifest.films) {
        const want = await maskOf(film);
        const scale = dpi / 25.4;
        expect(want.width).toBe(Math.round(film.box.width * scale));
        expect(want.height).toBe(Math.round(film.box.height * scale));
        const whole = blank(want);
        for (const sheet of film.sheets) {
          const at = windowPixels(film, sheet, dpi);
          expect(at.noise).toBeLessThan(1e-6);
          const [a, b] = sheet.filmToPage as [number, number];
          const turned = Math.abs(b) > Math.abs(a);
          const [w, h] = turned ? [at.height, at.width] : [at.width, at.height];
          // Films that share a page lie there in the order films.json has them.
          const before = manifest.films
            .filter((one) => one.sheets.some((s) => s.page === sheet.page))
            .indexOf(film);
          const picture = (await pagePictures(pdf, sheet.page, dir))[before]!;
          expect([picture.width, picture.height]).toEqual([w, h]);
          layIn(whole, at, (x, y) =>
            turned ? picture.at[(at.width - 1 - x) * w + y]! : picture.at[y * w + x]!,
          );
        }
        expect(Buffer.compare(whole.at, want.at)).toBe(0);
      }
    },
    600_000,
  );

  test.skipIf(!TOOLS.poppler)(
    'printed pages show every inked pixel of their window, nothing else away from marks and shared strips, and no mark or cut line within 0.3 mm of ink (needs poppler)',
    async () => {
      for (const film of manifest.films) {
        const want = await maskOf(film);
        const seen = blank(want);
        let checked = 0;
        for (const sheet of film.sheets) {
          const page = popplerPage(pdf, sheet.page, dpi, dir);
          const at = windowPixels(film, sheet, dpi);
          const { from, right, down } = pageWalk(sheet, dpi, page, manifest.sheet.height);
          const marked = markedPixels(film, sheet, dpi);
          let [missing, extra, tooNear] = [0, 0, 0];
          for (let y = 0; y < at.height; y++) {
            let p = from + y * down;
            let m = (y + at.y) * want.width + at.x;
            for (let x = 0; x < at.width; x++, p += right, m++) {
              const [ink, black] = [want.at[m]!, page.at[p]!];
              seen.at[m]! |= black;
              if (ink > black) missing++;
              // Whatever is not art, marks and cut lines alike, keeps clear of it.
              if (black > ink && inkedWithin(want, x + at.x, y + at.y, CLEAR)) tooNear++;
              if (marked[y * at.width + x] === 1) continue;
              checked++;
              if (black > ink) extra++;
            }
          }
          expect({ film: film.ink, page: sheet.page, missing, extra, tooNear }).toEqual({
            film: film.ink,
            page: sheet.page,
            missing: 0,
            extra: 0,
            tooNear: 0,
          });
        }
        // Marks and shared strips must not be most of the film, or the comparison would say little.
        expect(checked).toBeGreaterThan(want.at.length * 0.6);
        for (let i = 0; i < seen.at.length; i++)
          if (want.at[i]! > seen.at[i]!) throw new Error(`${film.ink} lost ink at pixel ${i}`);
      }
    },
    600_000,
  );

  test('every cut is one a knife follows: no bend under 8 mm, and no more ink than the best straight cut of its strip', async () => {
    const scale = dpi / 25.4;
    let [cuts, bends] = [0, 0];
    for (const film of manifest.films) {
      const mask = await maskOf(film);
      const inked = (u: number, v: number) => {
        const [x, y] = [
          Math.floor((u - film.box.x) * scale),
          Math.floor((film.box.y + film.box.height - v) * scale),
        ];
        return x >= 0 && y >= 0 && x < mask.width && y < mask.height && mask.at[y * mask.width + x] === 1;
      };
      /** mm of ink along a path, felt every twentieth of a millimetre. */
      const crossed = (path: readonly (readonly number[])[]) => {
        let mm = 0;
        for (let i = 1; i < path.length; i++) {
          const [[x0, y0], [x1, y1]] = [path[i - 1] as [number, number], path[i] as [number, number]];
          const steps = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / 0.05);
          for (let s = 0; s < steps; s++) {
            const t = (s + 0.5) / steps;
            if (inked(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)) mm += Math.hypot(x1 - x0, y1 - y0) / steps;
          }
        }
        return mm;
      };
      for (const sheet of film.sheets)
        for (const { with: page, path } of sheet.cuts) {
          if (page < sheet.page) continue;
          cuts++;
          const points = path as (readonly [number, number])[];
          for (let i = 1; i + 1 < points.length; i++) {
            const [p, q, r] = [points[i - 1]!, points[i]!, points[i + 1]!];
            const [a, b] = [
              [q[0] - p[0], q[1] - p[1]],
              [r[0] - q[0], r[1] - q[1]],
            ] as const;
            const turn = Math.abs(Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]));
            // The arc that rounds a corner from the middle of one side to the middle of the other.
            const half = Math.min(Math.hypot(...a), Math.hypot(...b)) / 2;
            expect(half / Math.tan(turn / 2)).toBeGreaterThan(7.9);
            bends++;
          }
          const other = film.sheets.find((one) => one.page === page)!.window;
          const [low, high] = [
            Math.max(sheet.window.x, other.x),
            Math.min(sheet.window.x + sheet.window.width, other.x + other.width),
          ];
          // Sheets of the demonstration meet along the deck alone: every cut runs from rail to rail.
          const keep = (high - low) / 10;
          let least = Infinity;
          for (let u = low + keep + 0.5 / scale; u < high - keep; u += 1 / scale)
            least = Math.min(
              least,
              crossed([
                [u, sheet.window.y],
                [u, sheet.window.y + sheet.window.height],
              ]),
            );
          // A rough edge's pixels along the knife are no crossing: 0.2 mm and a pixel.
          expect(crossed(points), `${film.ink}, sheets ${sheet.page} and ${page}`).toBeLessThanOrEqual(
            least + 0.2 + 1 / scale,
          );
        }
    }
    expect(cuts).toBeGreaterThan(10);
    expect(bends).toBeGreaterThan(20);
  }, 600_000);

  test.skipIf(!TOOLS.poppler)(
    'the ruler on the first page of every film is 100 mm long, to 0.1 mm or a pixel (needs poppler)',
    () => {
      for (const film of manifest.films) {
        const sheet = film.sheets[0]!;
        const shown = Math.max(600, dpi);
        const page = popplerPage(pdf, sheet.page, shown, dir);
        // Its base line is the straight black run of 100 mm and a tick's width, outside the window, on one side of it.
        const [a, b, c, d, e, f] = sheet.filmToPage as [number, number, number, number, number, number];
        const w = sheet.window;
        const corners = [
          [w.x, w.y],
          [w.x + w.width, w.y + w.height],
        ].map(([u, v]) => [a * u! + c * v! + e, b * u! + d * v! + f]);
        const px = shown / 25.4;
        const [left, rightX] = [
          Math.min(corners[0]![0]!, corners[1]![0]!),
          Math.max(corners[0]![0]!, corners[1]![0]!),
        ];
        const [low, high] = [
          Math.min(corners[0]![1]!, corners[1]![1]!),
          Math.max(corners[0]![1]!, corners[1]![1]!),
        ];
        const outside = (x: number, y: number) => {
          const [X, Y] = [x / px, manifest.sheet.height - y / px];
          return X < left - 0.2 || X > rightX + 0.2 || Y < low - 0.2 || Y > high + 0.2;
        };
        const near = (mm: number) => Math.abs(mm - 100.12) < 0.1 + 1 / px;
        let found = false;
        for (const along of ['x', 'y'] as const) {
          const [n, m] = along === 'x' ? [page.height, page.width] : [page.width, page.height];
          for (let i = 0; i < n && !found; i++) {
            let run = 0;
            for (let j = 0; j <= m; j++) {
              const [x, y] = along === 'x' ? [j, i] : [i, j];
              if (j < m && page.at[y * page.width + x] === 1 && outside(x, y)) run++;
              else {
                if (near(run / px)) found = true;
                run = 0;
              }
            }
          }
        }
        expect({ film: film.ink, ruler: found }).toEqual({ film: film.ink, ruler: true });
      }
    },
    600_000,
  );

  test.skipIf(!TOOLS.ghostscript)(
    'separations.pdf, split by an independent separation device, gives every film’s image (needs ghostscript)',
    async () => {
      execFileSync(
        'gs',
        [
          ...['-q', '-dNOPAUSE', '-dBATCH', '-dSAFER', '-sDEVICE=tiffsep', '-dMaxSpots=12', `-r${dpi}`],
          `-sOutputFile=${join(dir, 'plate-%d.tif')}`,
          join(dir, 'separations.pdf'),
        ],
        { stdio: 'ignore' },
      );
      const scale = dpi / 25.4;
      let faceBefore = '';
      let page = 0;
      for (const film of manifest.films) {
        if (film.face !== faceBefore) page++;
        faceBefore = film.face;
        const face = manifest.films.filter((one) => one.face === film.face);
        const left = Math.min(...face.map((one) => one.box.x));
        const top = Math.max(...face.map((one) => one.box.y + one.box.height));
        const plate = await bitsOfPng(join(dir, `plate-${page}(${film.ink}).tif`));
        const want = await maskOf(film);
        const [dx, dy] = [
          Math.round((film.box.x - left) * scale),
          Math.round((top - film.box.y - film.box.height) * scale),
        ];
        const whole = { window: film.box, page: 0, filmToPage: [], cuts: [] };
        const marked = markedPixels(film, whole, dpi);
        let [missing, extra] = [0, 0];
        for (let y = 0; y < want.height; y++)
          for (let x = 0; x < want.width; x++) {
            const ink = want.at[y * want.width + x]!;
            const got = plate.at[(y + dy) * plate.width + x + dx]!;
            if (ink > got) missing++;
            if (got > ink && marked[y * want.width + x] === 0) extra++;
          }
        expect({ film: film.ink, missing, extra }).toEqual({ film: film.ink, missing: 0, extra: 0 });
      }
    },
    600_000,
  );

  const ALL_THREE = TOOLS.poppler && TOOLS.mupdf && TOOLS.ghostscript;
  /**
   * A mark's edges may lie one of the printer's points apart between two programs; ink and bare film may not differ at all. A PDF
   * paints every point a line touches (ISO 32000-1, 10.6.5), MuPDF without smoothing only those whose middle it covers, which fills
   * sharp inner corners of letters some points deep; so marks are compared on pages shown four times as fine.
   */
  const FINER = 4;
  /** Points on separations, which are too large to be shown finer: inner corners of letters fill three deep. */
  const SEPARATION_EDGE = 3;

  test.skipIf(!ALL_THREE)(
    'three renderers show the same films, point for point, and the same marks to their edges (needs poppler, mupdf, ghostscript)',
    async () => {
      const pages = [...new Set(manifest.films.flatMap((film) => film.sheets.map((sheet) => sheet.page)))];
      const masks = new Map<Film, Bits>();
      // The first page of each film, and those that films share, unless all are asked for.
      const some = pages.filter(
        (page) => everyPage || manifest.films.some((film) => film.sheets[0]!.page === page),
      );
      for (const page of some) {
        const shown = RENDERERS.map((tool) => shownBy(tool, pdf, page, dpi, 'bits', dir));
        const { width } = shown[0]!;
        // 1: bare film without marks, 2: ink.
        const places = new Uint8Array(width * shown[0]!.height);
        for (const film of manifest.films) {
          for (const sheet of film.sheets) {
            if (sheet.page !== page) continue;
            const mask = masks.get(film) ?? (await maskOf(film));
            masks.clear();
            masks.set(film, mask);
            const at = windowPixels(film, sheet, dpi);
            const marked = markedPixels(film, sheet, dpi);
            const { from, right, down } = pageWalk(sheet, dpi, shown[0]!, manifest.sheet.height);
            for (let y = 0; y < at.height; y++) {
              let p = from + y * down;
              let m = (y + at.y) * mask.width + at.x;
              for (let x = 0; x < at.width; x++, p += right, m++)
                places[p] = mask.at[m] === 1 ? 2 : marked[y * at.width + x] === 1 ? 0 : 1;
            }
          }
        }
        let lost = 0;
        for (let p = 0; p < places.length; p++)
          if (places[p] === 2)
            for (const one of shown) lost += 1 - bit(one, p % width, Math.floor(p / width));
        expect({ page, lost }).toEqual({ page, lost: 0 });
        for (const [i, j] of PAIRS) {
          const { wrong } = differences(shown[i]!, shown[j]!, (x, y) => places[y * width + x]! > 0, Infinity);
          expect({ page, pair: [RENDERERS[i], RENDERERS[j]], wrong }).toEqual({
            page,
            pair: [RENDERERS[i], RENDERERS[j]],
            wrong: 0,
          });
        }
        const firstOfFace = FACES.some(
          (face) => manifest.films.find((film) => film.face === face)?.sheets[0]?.page === page,
        );
        if (!everyPage && !firstOfFace) continue;
        const fine = RENDERERS.map((tool) => shownBy(tool, pdf, page, FINER * dpi, 'bits', dir));
        for (const [i, j] of PAIRS) {
          const { far } = differences(fine[i]!, fine[j]!, () => false, FINER);
          expect({ page, pair: [RENDERERS[i], RENDERERS[j]], far }).toEqual({
            page,
            pair: [RENDERERS[i], RENDERERS[j]],
            far: 0,
          });
        }
      }
    },
    600_000,
  );

  test.skipIf(!ALL_THREE)(
    'three renderers show the same separations, point for point but for edges of marks (needs poppler, mupdf, ghostscript)',
    async () => {
      const faces = [...new Set(manifest.films.map((film) => film.face))];
      for (const [i, face] of faces.entries()) {
        const films = manifest.films.filter((film) => film.face === face);
        const left = Math.min(...films.map((film) => film.box.x));
        const top = Math.max(...films.map((film) => film.box.y + film.box.height));
        const shown = RENDERERS.map((tool) =>
          painted(shownBy(tool, join(dir, 'separations.pdf'), i + 1, dpi, 'colours', dir)),
        );
        const { width, height } = shown[0]!;
        const places = new Uint8Array(width * height).fill(1);
        for (const film of films) {
          const [dx, dy] = [film.box.x - left, top - film.box.y - film.box.height].map((mm) =>
            Math.round((mm * dpi) / 25.4),
          ) as [number, number];
          const marked = markedPixels(film, { window: film.box, page: 0, filmToPage: [], cuts: [] }, dpi);
          const { width: w, height: h } = await maskOf(film);
          for (let y = 0; y < Math.min(h, height - dy); y++)
            for (let x = 0; x < Math.min(w, width - dx); x++)
              if (marked[y * w + x] === 1) places[(y + dy) * width + x + dx] = 0;
        }
        for (const [a, b] of PAIRS) {
          const { wrong, far } = differences(
            shown[a]!,
            shown[b]!,
            (x, y) => places[y * width + x] === 1,
            SEPARATION_EDGE,
          );
          expect({ face, pair: [RENDERERS[a], RENDERERS[b]], wrong, far }).toEqual({
            face,
            pair: [RENDERERS[a], RENDERERS[b]],
            wrong: 0,
            far: 0,
          });
        }
      }
    },
    600_000,
  );

  test.skipIf(!ALL_THREE)(
    'three renderers show the same assembly guide, millimetre by millimetre (needs poppler, mupdf, ghostscript)',
    () => {
      // Words are in the two faces every PDF reader has, each program's own cut of them, and edges are smoothed each in its
      // own way. In squares of 4 mm that comes to less than 32 of 255 greys; a word or line that is missing or elsewhere, to more.
      const [shownDpi, side, most] = [101.6, 16, 32];
      const guide = join(dir, 'assembly.pdf');
      const count = Number(/^Pages: +(\d+)/m.exec(execFileSync('pdfinfo', [guide]).toString())![1]);
      for (let page = 1; page <= count; page++) {
        const cells = RENDERERS.map((tool) =>
          cellMeans(shownBy(tool, guide, page, shownDpi, 'greys', dir), side),
        );
        for (const [a, b] of PAIRS) {
          let worst = 0;
          for (let y = 0; y < Math.min(cells[a]!.rows, cells[b]!.rows); y++)
            for (let x = 0; x < Math.min(cells[a]!.columns, cells[b]!.columns); x++)
              worst = Math.max(
                worst,
                Math.abs(cells[a]!.at[y * cells[a]!.columns + x]! - cells[b]!.at[y * cells[b]!.columns + x]!),
              );
          expect(worst, `page ${page}, ${RENDERERS[a]} and ${RENDERERS[b]}`).toBeLessThan(most);
        }
      }
    },
    600_000,
  );
});
