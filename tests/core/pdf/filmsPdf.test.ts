import { execFileSync } from 'node:child_process';
import { zlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import { apply, type FaceLayout, layOutFace, pageMask, place } from '../../../core/film/index.ts';
import { filmsPdf } from '../../../core/pdf/index.ts';
import { request, testFilms } from '../film/testFace.ts';
import { type Renderer, TOOLS, withPdf } from './renderers.ts';

const deflate = (bytes: Uint8Array) => zlibSync(bytes, { level: 6 });
const options = { jobName: 'Night Heron', deflate };

const made = new Map<number, ReturnType<typeof testFilms>>();
/** Test films are drawn once for each resolution. */
function filmsAt(dpi: number) {
  const films = made.get(dpi) ?? testFilms(dpi);
  made.set(dpi, films);
  return films;
}

function laid(...args: Parameters<typeof request>): FaceLayout {
  const outcome = layOutFace(request(...args));
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('films.pdf', () => {
  test('the same layouts give the same bytes, without date or identifier', async () => {
    const layout = laid(filmsAt(72));
    const [a, b] = [await filmsPdf([layout], options), await filmsPdf([layout], options)];
    expect(Buffer.compare(Buffer.from(a), Buffer.from(b))).toBe(0);
    const text = Buffer.from(a).toString('latin1');
    // Packed streams may hold any three letters; an identifier is an array in the trailer.
    expect(text).not.toMatch(/CreationDate|ModDate|\/ID\s*\[/);
    expect(text).toMatch(/\/Trapped \/True/);
    expect(text).toMatch(/\/ImageMask true/);
    expect(text).toMatch(/\/Interpolate false/);
    expect(text).not.toMatch(/\/Interpolate true/);
  });

  test('stopping leaves nothing', async () => {
    const bytes = await filmsPdf([laid(filmsAt(72))], { ...options, abort: { aborted: true } });
    expect(bytes.length).toBe(0);
  });

  for (const [tool, named] of [
    ['poppler', 'a4'],
    ['mupdf', 'tabloid'],
  ] as const)
    test.skipIf(!TOOLS[tool])(
      `every page of a stretching, leaning printer comes out of it true, its four cross-hairs a joint to 0.05 mm, on ${named} (needs ${tool})`,
      async () => {
        const fault = { scaleX: 1.006, scaleY: 0.995, skewDeg: 0.4 };
        const layout = laid(filmsAt(72), { named, ...fault });
        const { height: H } = layout.printer.sheet;
        const lean = (fault.skewDeg * Math.PI) / 180;
        // Where that printer puts what it is asked for at (x, y) of the page, by the definition of scale and lean.
        const printed = (x: number, y: number) =>
          [fault.scaleX * x + fault.scaleY * Math.sin(lean) * y, fault.scaleY * Math.cos(lean) * y] as const;
        const pdf = await filmsPdf([layout], options);
        const px = 600 / 25.4;
        let found = 0;
        withPdf(pdf, (render) => {
          for (const film of layout.films.slice(0, 2))
            for (const sheet of film.sheets) {
              const page = render(tool, sheet.page + 1, 600);
              const hairs = sheet.seams.flatMap((seam) => seam.crossHairs);
              const seen = hairs.map(([u, v]) => {
                const [X, Y] = apply(sheet.filmToPage, u, v);
                // The middle of all black within 1.5 mm of where the cross should be: half its arms, and nothing else stands so near.
                let [sx, sy, n] = [0, 0, 0];
                const r = Math.round(1.5 * px);
                const [cx, cy] = [Math.round(X * px), Math.round((H - Y) * px)];
                for (let j = -r; j <= r; j++)
                  for (let i = -r; i <= r; i++)
                    if (page.black(cx + i, cy + j)) [sx, sy, n] = [sx + i + 0.5, sy + j + 0.5, n + 1];
                expect(n).toBeGreaterThan(100);
                found++;
                return printed((cx + sx / n) / px, H - (cy + sy / n) / px);
              });
              for (const [i, a] of hairs.entries())
                for (const [j, b] of hairs.entries()) {
                  if (j <= i) continue;
                  const film = Math.hypot(a[0] - b[0], a[1] - b[1]);
                  const print = Math.hypot(seen[i]![0] - seen[j]![0], seen[i]![1] - seen[j]![1]);
                  expect(Math.abs(print - film)).toBeLessThan(0.05);
                }
            }
        });
        expect(found).toBeGreaterThan(30);
      },
      120_000,
    );

  test.skipIf(!TOOLS.qpdf)(
    'a structure checker finds nothing wrong, and boxes are the sheet exactly (needs qpdf)',
    async () => {
      const pdf = await filmsPdf([laid(filmsAt(72), { named: 'letter' })], options);
      withPdf(pdf, (_render, path) => {
        expect(execFileSync('qpdf', ['--check', path]).toString()).toMatch(
          /No syntax or stream encoding errors/,
        );
        const json = JSON.parse(execFileSync('qpdf', ['--json', path], { maxBuffer: 1 << 28 }).toString());
        const objects = json.qpdf[1] as Record<string, { value?: Record<string, unknown> }>;
        const pages = Object.values(objects).filter((o) => o.value?.['/Type'] === '/Page');
        expect(pages.length).toBeGreaterThan(5);
        // Letter is 612 × 792 points: 8.5 and 11 times 72.
        for (const page of pages) {
          for (const name of ['/MediaBox', '/CropBox', '/TrimBox', '/BleedBox']) {
            const box = page.value![name] as number[];
            expect(box[2]).toBeCloseTo(612, 3);
            expect(box[3]).toBeCloseTo(792, 3);
          }
        }
      });
    },
  );

  // At 300 dpi A4 pages are no whole number of pixels, letter pages are; 90 and 0 turns both occur among these.
  const cases = [
    ['a4', 300, false],
    ['a4', 300, true],
    ['letter', 300, false],
    ['tabloid', 150, true],
    ['a3', 600, false],
    ['legal', 200, false],
  ] as const;
  for (const tool of ['poppler', 'mupdf', 'ghostscript'] as const satisfies readonly Renderer[]) {
    for (const [named, dpi, mirror] of cases) {
      test.skipIf(!TOOLS[tool])(
        `${tool} gives back each ${named} sheet at ${dpi} dpi${mirror ? ', mirrored' : ''}, pixel for pixel outside the marks (needs ${tool})`,
        async () => {
          const films = filmsAt(dpi);
          const layout = laid(dpi > 300 ? films.slice(3, 4) : films.slice(0, 4), { named, mirror });
          const pdf = await filmsPdf([layout], options);
          withPdf(pdf, (render) => {
            let page = 0;
            for (const film of layout.films) {
              for (const sheet of film.sheets) {
                page++;
                if (layout.films.length > 1 && page % 3 !== 1) continue;
                const shown = render(tool, page, dpi);
                const want = pageMask(film, sheet);
                const scale = dpi / 25.4;
                const high = layout.printer.sheet.height * scale;
                const near = new Uint8Array((want.width as number) * (want.height as number));
                const [ox, oy] = [sheet.imageAt.x as number, sheet.imageAt.y as number];
                for (const shape of sheet.marks) {
                  const box = boundsOf([shape])!;
                  const x0 = Math.max(0, Math.floor(box.x * scale) - 2 - ox);
                  const x1 = Math.min(want.width as number, Math.ceil((box.x + box.width) * scale) + 2 - ox);
                  const y0 = Math.max(0, Math.floor(high - (box.y + box.height) * scale) - 2 - oy);
                  const y1 = Math.min(want.height as number, Math.ceil(high - box.y * scale) + 2 - oy);
                  for (let y = y0; y < y1; y++)
                    near.fill(
                      1,
                      y * (want.width as number) + x0,
                      y * (want.width as number) + Math.max(x0, x1),
                    );
                }
                let [missing, extra] = [0, 0];
                for (let y = 0; y < (want.height as number); y++) {
                  for (let x = 0; x < (want.width as number); x++) {
                    const ink = (want.data[y * want.stride + (x >> 5)]! >>> (x & 31)) & 1;
                    const seen = shown.black(x + ox, y + oy);
                    if (ink === 1 && !seen) missing++;
                    if (ink === 0 && seen && near[y * (want.width as number) + x] === 0) extra++;
                  }
                }
                expect({ page, missing, extra }).toEqual({ page, missing: 0, extra: 0 });
              }
            }
          });
        },
        60_000,
      );
    }
  }

  for (const [named, scale] of [
    ['a4', 1],
    ['letter', 1],
    ['a4', 1.004],
  ] as const) {
    test.skipIf(!TOOLS.poppler)(
      `the ruler is 100 mm long on the ${named} page at printer scale ${scale}, to 0.05 mm (needs poppler)`,
      async () => {
        const layout = laid(filmsAt(72), { named, scaleX: scale, scaleY: scale });
        const pdf = await filmsPdf([layout], options);
        const dpi = 1200;
        withPdf(pdf, (render) => {
          const page = render('poppler', 1, dpi);
          const sheet = layout.films[0]!.sheets[0]!;
          // The ruler's base line is the longest straight black run along the strip; find it in the strip's part of the page.
          const box = boundsOf(sheet.labels)!;
          const px = dpi / 25.4;
          const high = layout.printer.sheet.height * px;
          const upright = sheet.turn === 0;
          let longest = 0;
          const [a0, a1] = [Math.floor(box.x * px) - 4, Math.ceil((box.x + box.width) * px) + 4];
          const [b0, b1] = [
            Math.floor(high - (box.y + box.height) * px) - 4,
            Math.ceil(high - box.y * px) + 4,
          ];
          for (let i = upright ? a0 : b0; i < (upright ? a1 : b1); i++) {
            let run = 0;
            for (let j = upright ? b0 : a0; j < (upright ? b1 : a1); j++) {
              const black = upright ? page.black(i, j) : page.black(j, i);
              run = black ? run + 1 : 0;
              if (run > longest) longest = run;
            }
          }
          // From the middle of the first tick to the middle of the last: the base line less one tick's width, 0.12 mm.
          const measured = (longest / px) * scale - 0.12;
          expect(Math.abs(measured - 100)).toBeLessThan(0.05);
        });
      },
      60_000,
    );
  }

  test.skipIf(!TOOLS.poppler)(
    'a registration mark’s centre is where the manifest’s matrix puts it, to one pixel (needs poppler)',
    async () => {
      const dpi = 600;
      const layout = laid(filmsAt(72), { named: 'tabloid' });
      const pdf = await filmsPdf([layout], options);
      withPdf(pdf, (render) => {
        const film = layout.films[0]!;
        const mark = film.marks.find((one) => one.kind === 'registration' && one.y > 1)!;
        const sheet = film.sheets.find(
          (s) => mark.x > s.window.x + 10 && mark.x < s.window.x + s.window.width - 10,
        )!;
        const page = render('poppler', sheet.index + 1, dpi);
        const [X, Y] = apply(sheet.filmToPage, mark.x, mark.y);
        const px = dpi / 25.4;
        const [cx, cy] = [X * px, layout.printer.sheet.height * px - Y * px];
        // Middle of the cross's two lines, seen 4.4 mm out, beyond the ring.
        const centre = (at: (i: number) => boolean, middle: number) => {
          let [sum, n] = [0, 0];
          for (let i = Math.floor(middle - 12); i < middle + 12; i++)
            if (at(i)) [sum, n] = [sum + i + 0.5, n + 1];
          return sum / n;
        };
        const out = Math.round(4.4 * px);
        expect(Math.abs(centre((x) => page.black(x, Math.round(cy) - out), cx) - cx)).toBeLessThan(1);
        expect(Math.abs(centre((y) => page.black(Math.round(cx) + out, y), cy) - cy)).toBeLessThan(1);
        expect(place(mark.shapes, sheet.filmToPage).length).toBe(mark.shapes.length);
      });
    },
    60_000,
  );

  test.skipIf(!TOOLS.poppler)(
    'labels, ruler figures and pull numbers are 2.2 mm high and more as they are printed at 600 dpi (needs poppler)',
    async () => {
      const px = 600 / 25.4;
      const layout = laid(
        filmsAt(72).map((film, i) => ({ ...film, pull: i + 1 })),
        { named: 'tabloid' },
      );
      const { height, width } = layout.printer.sheet;
      withPdf(await filmsPdf([layout], options), (render) => {
        // The strip lies along the lower edge, 5 mm in; the ruler ends at its right end.
        const film = layout.films[1]!;
        const sheet = film.sheets[1]!;
        const page = render('poppler', sheet.page + 1, 600);
        /** Height, mm, of the first thing seen from above (or below) between two places across the page; mm from its lower left. */
        const firstHigh = (x0: number, x1: number, y0: number, y1: number, down: boolean) => {
          const inked: boolean[] = [];
          for (let y = Math.floor((height - y1) * px); y < (height - y0) * px; y++) {
            let any = false;
            for (let x = Math.floor(x0 * px); x < x1 * px && !any; x++) any = page.black(x, y);
            inked.push(any);
          }
          const seen = down ? inked : inked.reverse();
          const first = seen.indexOf(true);
          return (seen.indexOf(false, first) - first) / px;
        };
        const sizes = {
          nose: firstHigh(5, 14, 5, 12, false),
          label: firstHigh(15.2, 22, 5, 14.5, true),
          ruler: firstHigh(width - 5 - 104 + 0.6, width - 5 - 104 + 2.8, 5, 14, true),
        };
        for (const [what, mm] of Object.entries(sizes)) {
          expect(mm, what).toBeGreaterThanOrEqual(2.2);
          expect(mm, what).toBeLessThan(3.2);
        }
        // Numbers of the pull stand in whichever way their scales do.
        let numbers = 0;
        for (const { kind, shapes } of film.marks) {
          if (!kind.startsWith('vernier') || shapes.length <= 10) continue;
          const box = boundsOf(place(shapes.slice(10), sheet.filmToPage))!;
          if (box.x < 6 || box.y < 16 || box.x + box.width > width - 6 || box.y + box.height > height - 6)
            continue;
          let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
          for (
            let y = Math.floor((height - box.y - box.height - 0.5) * px);
            y < (height - box.y + 0.5) * px;
            y++
          )
            for (let x = Math.floor((box.x - 0.5) * px); x < (box.x + box.width + 0.5) * px; x++)
              if (page.black(x, y))
                [x0, x1, y0, y1] = [Math.min(x0, x), Math.max(x1, x), Math.min(y0, y), Math.max(y1, y)];
          expect(Math.max(x1 - x0, y1 - y0) + 1).toBeGreaterThanOrEqual(2.2 * px);
          numbers++;
        }
        expect(numbers).toBeGreaterThanOrEqual(2);
      });
    },
    60_000,
  );

  for (const dpi of [600, 1200])
    test.skipIf(!TOOLS.poppler)(
      `every tick of the scales at every main mark is printed where it should be on both axes, to one pixel at ${dpi} dpi (needs poppler)`,
      async () => {
        const films = filmsAt(72).filter((_, i) => i === 0 || i === 4);
        const layout = laid(films, { named: 'tabloid' });
        const pdf = await filmsPdf([layout], options);
        const px = dpi / 25.4;
        withPdf(pdf, (render) => {
          /** Main marks whose scales were measured, by film: where they stand and which way they read. */
          const seen = films.map(() => new Set<string>());
          for (const [f, film] of layout.films.entries())
            for (const sheet of film.sheets) {
              const { x, y, width, height } = sheet.window;
              const page = render('poppler', sheet.page + 1, dpi);
              for (const mark of film.marks) {
                if (!mark.kind.startsWith('vernier')) continue;
                const ticks = mark.shapes.slice(0, 10);
                const box = boundsOf(ticks);
                // A scale that a sheet shows only a part of is whole on its neighbour.
                if (!box || box.x < x || box.x + box.width > x + width) continue;
                if (box.y < y || box.y + box.height > y + height) continue;
                // The first ten shapes of a lane are its ticks; a pull's number follows.
                for (const tick of place(ticks, sheet.filmToPage)) {
                  const [[x0, y0], [x1, y1]] = tick.points as [[number, number], [number, number]];
                  const [mx, my] = [((x0 + x1) / 2) * px, (layout.printer.sheet.height - (y0 + y1) / 2) * px];
                  const upright = Math.abs(x0 - x1) < Math.abs(y0 - y1);
                  const reach = Math.round(0.38 * px);
                  let [sum, n] = [0, 0];
                  for (let d = -reach; d <= reach; d++) {
                    const [i, j] = upright
                      ? [Math.floor(mx) + d, Math.floor(my)]
                      : [Math.floor(mx), Math.floor(my) + d];
                    if (page.black(i, j)) [sum, n] = [sum + (upright ? i : j) + 0.5, n + 1];
                  }
                  // 0.2 mm of line, to a pixel at either edge.
                  expect(Math.abs(n - 0.2 * px)).toBeLessThanOrEqual(2);
                  expect(Math.abs(sum / n - (upright ? mx : my))).toBeLessThan(1);
                }
                const end = Math.abs(mark.x) > 150 ? `u ${Math.sign(mark.x)}` : `v ${Math.sign(mark.y)}`;
                seen[f]!.add(`${end} ${mark.kind}`);
              }
            }
          const all = ['u -1', 'u 1', 'v -1', 'v 1'].flatMap((end) => [
            `${end} vernier-across`,
            `${end} vernier-along`,
          ]);
          for (const marks of seen) expect([...marks].sort()).toEqual(all);
        });
      },
      180_000,
    );

  for (const [named, tool, dpi] of [
    ['tabloid', 'poppler', 600],
    ['tabloid', 'poppler', 1200],
    ['a3', 'mupdf', 600],
    ['a3', 'mupdf', 1200],
  ] as const)
    test.skipIf(!TOOLS[tool])(
      `the scales in every overlap of a ${named} film stand tick for tick where they should, to one pixel at ${dpi} dpi (needs ${tool})`,
      async () => {
        const px = dpi / 25.4;
        const reach = Math.round(0.3 * px);
        const layout = laid(filmsAt(72).slice(0, 1), { named });
        const film = layout.films[0]!;
        const pdf = await filmsPdf([layout], options);
        withPdf(pdf, (render) => {
          let checked = 0;
          for (const sheet of film.sheets) {
            const page = render(tool, sheet.page + 1, dpi);
            for (const seam of sheet.seams) {
              expect(seam.scales.length).toBe(2);
              // The lower sheet has ten ticks at 1.0 mm, the other ten at 0.9 mm, counted from the long one: -4 to 5.
              const pitch = seam.with > sheet.index ? 1 : 0.9;
              for (const { x, y, reads } of seam.scales) {
                for (let n = -4; n <= 5; n++) {
                  const along = n * pitch;
                  // Half way up a tick: the fixed ones stand on one side of the line, the moving ones on the other.
                  const middles = [0.9, -0.9].map((aside) => {
                    const [u, v] = reads === 'along' ? [x + along, y + aside] : [x + aside, y + along];
                    const [X, Y] = apply(sheet.filmToPage, u, v);
                    return [X * px, (layout.printer.sheet.height - Y) * px] as const;
                  });
                  const upright = (reads === 'along') === (sheet.turn === 0);
                  const off = middles.map(([mx, my]) => {
                    let [sum, count] = [0, 0];
                    for (let d = -reach; d <= reach; d++) {
                      const [i, j] = upright
                        ? [Math.floor(mx) + d, Math.floor(my)]
                        : [Math.floor(mx), Math.floor(my) + d];
                      if (page.black(i, j)) [sum, count] = [sum + (upright ? i : j) + 0.5, count + 1];
                    }
                    return count > 0.12 * px ? Math.abs(sum / count - (upright ? mx : my)) : Infinity;
                  });
                  expect(Math.min(...off)).toBeLessThan(1);
                  // This sheet prints its own scale alone.
                  expect(Math.max(...off)).toBe(Infinity);
                  checked++;
                }
              }
            }
          }
          expect(checked).toBe(film.sheets.flatMap((sheet) => sheet.seams).length * 20);
          expect(checked).toBeGreaterThanOrEqual(80);
        });
      },
      120_000,
    );
});
