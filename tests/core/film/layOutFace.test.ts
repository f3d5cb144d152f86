import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boundsOf, overlap } from '../../../core/film/bounds.ts';
import {
  apply,
  customSheet,
  type FaceLayout,
  type FilmArt,
  filmManifest,
  filmMask,
  layOutFace,
  SHEETS,
  sheetNamed,
  windowMask,
} from '../../../core/film/index.ts';
import { anyInk } from '../../../core/film/inkSearch.ts';
import { blankMask, type Mask } from '../../../core/raster/index.ts';
import { paint, printer, request, seeded, testFilms } from './testFace.ts';

function laid(...args: Parameters<typeof request>): FaceLayout {
  const outcome = layOutFace(request(...args));
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const bit = (mask: Mask, x: number, y: number) => (mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1;

/** Every window of a film laid back where the manifest says, by a reader that knows only films.json. */
function rejoined(layout: FaceLayout, index: number): Mask {
  const manifest = filmManifest('job', [layout], () => ({ x: 0, y: 0 }));
  const entry = manifest.films[index]!;
  const scale = manifest.dpi / 25.4;
  const whole = blankMask(Math.round(entry.box.width * scale), Math.round(entry.box.height * scale));
  for (const [i, sheet] of entry.sheets.entries()) {
    const part = windowMask(layout.films[index]!, layout.films[index]!.sheets[i]!);
    const x0 = (sheet.window.x - entry.box.x) * scale;
    const y0 = (entry.box.y + entry.box.height - sheet.window.y - sheet.window.height) * scale;
    // Windows are whole pixels: nothing but rounding noise may be left.
    expect(Math.abs(x0 - Math.round(x0))).toBeLessThan(1e-6);
    expect(Math.abs(y0 - Math.round(y0))).toBeLessThan(1e-6);
    expect(sheet.window.width * scale).toBeCloseTo(part.width as number, 6);
    expect(sheet.window.height * scale).toBeCloseTo(part.height as number, 6);
    for (let y = 0; y < (part.height as number); y++) {
      for (let x = 0; x < (part.width as number); x++) {
        if (bit(part, x, y) === 0) continue;
        const [X, Y] = [x + Math.round(x0), y + Math.round(y0)];
        whole.data[Y * whole.stride + (X >> 5)]! |= 1 << (X & 31);
      }
    }
  }
  return whole;
}

const films = testFilms(100);

describe('sheets', () => {
  test('sizes are those of ISO 216 and the American trade', () => {
    // ISO 216: A4 210 × 297, A3 297 × 420. Letter 8.5 × 11 in, Legal 8.5 × 14 in, Tabloid 11 × 17 in.
    const sizes = Object.fromEntries(SHEETS.map((s) => [s.name, [s.width, s.height]]));
    expect(sizes['a4']).toEqual([210, 297]);
    expect(sizes['a3']).toEqual([297, 420]);
    for (const [name, w, h] of [
      ['letter', 8.5, 11],
      ['legal', 8.5, 14],
      ['tabloid', 11, 17],
    ] as const) {
      expect(sizes[name]![0]).toBeCloseTo(w * 25.4, 9);
      expect(sizes[name]![1]).toBeCloseTo(h * 25.4, 9);
    }
    expect(sheetNamed(' A4 ')?.name).toBe('a4');
    expect(sheetNamed('a99')).toBeUndefined();
  });

  test('a sheet of no size is refused with a sentence', () => {
    for (const [w, h] of [
      [0, 100],
      [-5, 100],
      [Number.NaN, 100],
      [100, 9e9],
    ] as const) {
      const outcome = customSheet(w, h);
      expect(outcome.ok).toBe(false);
      if (!outcome.ok) expect(outcome.mend).toMatch(/\.$/);
    }
  });

  for (const named of ['letter', 'legal', 'tabloid', 'a4', 'a3'] as const) {
    for (const mirror of [false, true]) {
      test(`${named}${mirror ? ', wrong reading' : ''}: windows rejoin to the film, and all lies within the printer's reach`, () => {
        const layout = laid(films, { named, mirror });
        const { sheet, margin } = layout.printer;
        for (const [i, film] of layout.films.entries()) {
          expect(
            Buffer.compare(
              Buffer.from(rejoined(layout, i).data.buffer),
              Buffer.from(filmMask(film).data.buffer),
            ),
          ).toBe(0);
          for (const s of film.sheets) {
            const corners = [
              apply(s.filmToPage, s.window.x, s.window.y),
              apply(s.filmToPage, s.window.x + s.window.width, s.window.y + s.window.height),
            ];
            const strip = boundsOf(s.labels)!;
            for (const [x, y] of [
              ...corners,
              [strip.x, strip.y],
              [strip.x + strip.width, strip.y + strip.height],
            ] as [number, number][]) {
              expect(x).toBeGreaterThanOrEqual(margin - 1e-6);
              expect(y).toBeGreaterThanOrEqual(margin - 1e-6);
              expect(x).toBeLessThanOrEqual(sheet.width - margin + 1e-6);
              expect(y).toBeLessThanOrEqual(sheet.height - margin + 1e-6);
            }
            // Labels never over art: the strip and the window share nothing.
            const [p, q] = corners as [[number, number], [number, number]];
            const [left, right] = [Math.min(p[0], q[0]), Math.max(p[0], q[0])];
            const [low, high] = [Math.min(p[1], q[1]), Math.max(p[1], q[1])];
            const apart =
              strip.x + strip.width <= left ||
              strip.x >= right ||
              strip.y + strip.height <= low ||
              strip.y >= high;
            expect(apart).toBe(true);
          }
        }
      });
    }
  }

  test('neighbours share exactly the overlap, and each overlap has four cross-hairs on blank film', () => {
    const layout = laid(films, { named: 'a4' });
    for (const film of layout.films) {
      expect(film.sheets.length).toBeGreaterThan(1);
      for (const [i, s] of film.sheets.entries()) {
        const next = film.sheets[i + 1];
        if (!next) continue;
        expect(s.window.x + s.window.width - next.window.x).toBeCloseTo(
          Math.round((20 / 25.4) * 100) * 0.254,
          6,
        );
        const seam = s.seams.find((one) => one.with === i + 1)!;
        expect(seam.crossHairs.length).toBe(4);
        for (const [u, v] of seam.crossHairs) {
          expect(anyInk(films, { x: u - 2, y: v - 2, width: 4, height: 4 })).toBe(false);
          expect(u).toBeGreaterThan(next.window.x);
          expect(u).toBeLessThan(s.window.x + s.window.width);
        }
      }
    }
  });

  test('a roll as wide as the film is high takes one page a film', () => {
    const layout = laid(films, { sheet: { name: 'custom', width: 300, height: 900 } });
    expect(layout.films.map((film) => film.sheets.length)).toEqual([1, 1, 1, 1, 1]);
    expect(layout.films.every((film) => film.sheets[0]!.seams.length === 0)).toBe(true);
  });

  test('a printer that prints 1 % long gets lengths divided by it', () => {
    const layout = laid(films, { named: 'a3', scaleX: 1.01, scaleY: 0.99 });
    for (const sheet of layout.films[0]!.sheets) {
      const [a, b, c, d] = sheet.filmToPage;
      const along = sheet.turn === 0 ? a : b;
      const across = sheet.turn === 0 ? d : -c;
      expect(along).toBeCloseTo(sheet.turn === 0 ? 1 / 1.01 : 1 / 0.99, 12);
      expect(across).toBeCloseTo(sheet.turn === 0 ? 1 / 0.99 : 1 / 1.01, 12);
    }
  });

  test('sheets too small for margins, strip and overlap are refused, never looped over', () => {
    for (const over of [
      { sheet: { name: 'custom', width: 40, height: 60 } },
      { named: 'a4', margin: 104 },
      { named: 'a4', margin: 200 },
      { named: 'a4', overlap: 150 },
    ]) {
      const outcome = layOutFace(request(films, over));
      expect(outcome.ok).toBe(false);
      if (outcome.ok) continue;
      expect(outcome.kind).toBe('input');
      expect(outcome.reason).toMatch(/\.$/);
    }
    expect(layOutFace(request([])).ok).toBe(false);
  });

  test('cuts run through blank film where there is some: the base has a gap from 40 to 90 mm', () => {
    const layout = laid(films, { named: 'a4' });
    const clean = layout.films[0]!.sheets.flatMap((s) => s.seams).filter(
      (seam) => seam.crossings.length === 0,
    );
    expect(clean.length).toBeGreaterThan(0);
    for (const seam of clean) expect(seam.path[0]![0]).toBeGreaterThan(40);
  });
});

describe('marks', () => {
  for (const verniers of [true, false]) {
    test(`lie over no film's ink and at the same places on every film${verniers ? ', verniers too' : ''}`, () => {
      const outcome = layOutFace({ ...request(films), options: { verniers } });
      if (!outcome.ok) throw new Error(outcome.reason);
      const places = outcome.value.films.map((film) => film.marks.map(({ kind, x, y }) => ({ kind, x, y })));
      for (const list of places) expect(list).toEqual(places[0]);
      expect(places[0]!.filter((mark) => mark.kind === 'registration').length).toBe(4);
      expect(places[0]!.some((mark) => mark.kind === 'vernier-along')).toBe(verniers);
      for (const film of outcome.value.films) {
        for (const mark of film.marks) {
          for (const shape of mark.shapes) expect(anyInk(films, boundsOf([shape])!)).toBe(false);
          const box = boundsOf(mark.shapes);
          if (!box) continue;
          expect(box.x).toBeGreaterThanOrEqual(film.box.x);
          expect(box.y).toBeGreaterThanOrEqual(film.box.y);
          expect(box.x + box.width).toBeLessThanOrEqual(film.box.x + film.box.width);
          expect(box.y + box.height).toBeLessThanOrEqual(film.box.y + film.box.height);
        }
      }
    });
  }

  test('vernier ticks part by a tenth of a millimetre: moving tick n lies 0.1 n short of fixed tick n', () => {
    const layout = laid(films);
    const lane = (film: number) =>
      layout.films[film]!.marks.filter((mark) => mark.kind === 'vernier-along')[0]!;
    const ticks = (film: number) =>
      lane(film)
        .shapes.filter((s) => s.kind === 'line')
        .slice(0, 10)
        .map((s) => s.points[0]!);
    const [fixed, moving] = [ticks(0), ticks(1)];
    expect(fixed.length).toBe(10);
    for (const [i, tick] of fixed.entries()) {
      const far = Math.hypot(tick[0] - moving[i]![0], tick[1] - moving[i]![1]);
      expect(far).toBeCloseTo(0.1 * Math.abs(i - 4), 9);
    }
  });

  test('a face of twelve pulls has a scale of either axis for every later pull at every main mark, over no ink', () => {
    const many = Array.from({ length: 12 }, (_, i) => ({
      ...films[i % films.length]!,
      inkId: `many-${i}`,
      pull: i + 1,
      pulls: 12,
    }));
    const layout = laid(many, { sheet: { name: 'custom', width: 420, height: 1000 } });
    const main = layout.films[0]!.marks.filter((mark) => mark.kind === 'registration');
    expect(main.length).toBe(4);
    for (const [i, film] of layout.films.entries()) {
      for (const kind of ['vernier-along', 'vernier-across'] as const) {
        const mine = film.marks.filter((mark) => mark.kind === kind && mark.shapes.length > 0);
        // Pull 1 has the fixed scales of all others, every other pull its own moving one: once at each main mark.
        expect(mine.length).toBe(i === 0 ? 4 * 11 : 4);
        for (const mark of mine)
          for (const shape of mark.shapes) expect(anyInk(many, boundsOf([shape])!)).toBe(false);
        for (const mark of i === 0 ? [] : mine) {
          const opposite = layout.films[0]!.marks.find(
            (one) => one.kind === kind && Math.hypot(one.x - mark.x, one.y - mark.y) < 1e-9,
          );
          expect(opposite?.shapes.length).toBe(10);
        }
      }
    }
    // No two scales stand on each other.
    const boxes = layout.films[0]!.marks.filter((m) => m.kind.startsWith('vernier')).map(
      (m) => boundsOf(m.shapes)!,
    );
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) expect(overlap(a, b), JSON.stringify([a, b])).toBe(false);
  });

  test('every overlap with blank film reads both ways, on film that no ink of the face prints', () => {
    const layout = laid(films, { named: 'tabloid' });
    for (const film of layout.films)
      for (const sheet of film.sheets)
        for (const seam of sheet.seams) {
          expect(seam.scales.map(({ reads }) => reads).sort()).toEqual(['across', 'along']);
          for (const { x, y, reads } of seam.scales) {
            const [w, h] = reads === 'along' ? [10.2, 5.2] : [5.2, 10.2];
            const low = reads === 'along' ? { x: x - 4.6, y: y - h / 2 } : { x: x - w / 2, y: y - 4.6 };
            expect(anyInk(films, { ...low, width: w, height: h })).toBe(false);
          }
        }
  });

  test('where the ends of an overlap are inked, its scales stand wherever it is blank; where nothing is, it is said', () => {
    const ends = blankMask(films[0]!.mask.width, films[0]!.mask.height);
    const { box, dpi } = films[0]!;
    // A film inked all over but for a lengthwise gap 30 mm high about the middle.
    paint(ends, box, dpi, box, (_u, v) => Math.abs(v) > 15);
    const art = { ...films[0]!, mask: ends, pulls: 1 };
    for (const seam of laid([art]).films[0]!.sheets.flatMap((sheet) => sheet.seams)) {
      expect(seam.scales.length).toBe(2);
    }
    // 2 mm of overlap hold no scale at all.
    const narrow = laid([art], { overlap: 2 });
    expect(narrow.films[0]!.sheets[0]!.seams[0]!.scales).toEqual([]);
    expect(narrow.notes.join(' ')).toMatch(/too little blank film for scales both ways/);
  });

  test('holes without ink have full cross-hairs on their centres; holes under ink none, and it is said', () => {
    const clear = films.slice(3, 4);
    const outcome = layOutFace({ ...request(clear), options: { marks: 'deck' } });
    if (!outcome.ok) throw new Error(outcome.reason);
    const layout = outcome.value;
    const holes = layout.films[0]!.marks.filter((mark) => mark.kind === 'hole');
    expect(holes.length + Number(/(\d+) of 8/.exec(layout.notes.join(' '))?.[1] ?? 0)).toBe(8);
    const open = holes.find((mark) => mark.x > 0)!;
    const box = boundsOf(open.shapes)!;
    expect(box.x + box.width / 2).toBeCloseTo(open.x, 6);
    expect(box.y + box.height / 2).toBeCloseTo(open.y, 6);
    expect(laid(films).notes.join(' ')).toMatch(/truck holes lie under solid ink/);
  });
});

describe('fewest sheets', () => {
  test('a narrow deck on legal sheets gets small side marks and three sheets a film instead of five', () => {
    const narrow = testFilms(100, 780, 97);
    const layout = laid(narrow, { named: 'legal' });
    // 349 mm less margins, strip and overlap carry a 800 mm film in three only if it is no higher than 205.9 mm.
    for (const [i, film] of layout.films.entries()) {
      expect(film.sheets.length).toBe(3);
      expect(film.box.height).toBeLessThan(205.9);
      expect(rejoined(layout, i).data).toEqual(filmMask(film).data);
      const main = film.marks.filter((mark) => mark.kind === 'registration');
      expect(main.length).toBe(4);
      for (const mark of main)
        for (const shape of mark.shapes) expect(anyInk(narrow, boundsOf([shape])!)).toBe(false);
      for (const sheet of film.sheets)
        for (const seam of sheet.seams) {
          expect(seam.crossHairs.length).toBe(4);
          // The shift along the film, which adds up over its joints, is read even so.
          expect(seam.scales.map(({ reads }) => reads)).toContain('along');
        }
    }
    expect(layout.notes.join(' ')).toMatch(/Side marks are set small, which saves 10 sheets/);
  });

  test('pictures of all films lie the same way, and on tabloid sheets that is with the long side along the deck', () => {
    const layout = laid(films, { named: 'tabloid' });
    for (const film of layout.films) {
      expect(film.sheets.length).toBe(3);
      expect(film.sheets.map((sheet) => sheet.turn)).toEqual([90, 90, 90]);
    }
  });
});

describe('one feed direction for all films of a face', () => {
  const strips = customSheet(150, 400);
  if (!strips.ok) throw new Error(strips.reason);
  /** A disc on the centreline, and two bars beside it that reach further to nose and tail than the marks there. */
  const discAndBars = (half: number): FilmArt[] =>
    testFilms(100)
      .slice(0, 2)
      .map((film, i): FilmArt => {
        const mask = blankMask(film.mask.width, film.mask.height);
        const bars = { x: -half, y: -65, width: 2 * half, height: 130 };
        if (i === 0) paint(mask, film.box, 100, film.box, (u, v) => Math.hypot(u, v) < 40);
        else paint(mask, film.box, 100, bars, (_, v) => Math.abs(v) > 50);
        return { ...film, pulls: 2, mask };
      });
  const sheetsOf = ({ films }: FaceLayout) => films.map((film) => film.sheets.length);
  const turns = ({ films }: FaceLayout) => films.flatMap((film) => film.sheets.map(({ turn }) => turn));
  const said = (layout: FaceLayout) => layout.notes.filter((note) => note.includes('lie the same way'));

  test('on long narrow sheets it costs a sheet where one film is twice as long as the other, and that is said', () => {
    const both = discAndBars(125);
    const layout = laid(both, { sheet: strips.value });
    expect(new Set(turns(layout)).size).toBe(1);
    // Each film on its own, its marks where they are among the others', may lie as it likes.
    const [upright, lying] = ([0, 90] as const).map((turn) => {
      const long = turn === 0 ? 150 : 400;
      const high = 550 - long;
      return layout.films.map(({ box }) => {
        const pieces = (length: number, room: number) => {
          let [n, reach] = [1, room];
          for (; reach < length; reach += room - 20) n++;
          return n;
        };
        // Margins of 5 mm, and a strip of labels of 10 mm and more.
        return pieces(box.width, long - 20) * pieces(box.height, high - 10);
      });
    }) as [number[], number[]];
    const each = upright.map((n, i) => Math.min(n, lying[i]!));
    const total = (counts: readonly number[]) => counts.reduce((sum, n) => sum + n, 0);
    expect(total(sheetsOf(layout))).toBe(Math.min(total(upright), total(lying)));
    expect(total(sheetsOf(layout)) - total(each)).toBe(1);
    const dear = sheetsOf(layout).findIndex((n, i) => n > each[i]!);
    const { inkName } = both[dear]!;
    expect(said(layout)).toEqual([
      `All films of a face lie the same way on their sheets, so that a printer's stretch is the same for every pull. That costs 1 sheet: turned, ${inkName} alone would take ${each[dear]} instead of ${sheetsOf(layout)[dear]}.`,
    ]);
  });

  test('where it costs nothing, nothing is said', () => {
    for (const layout of [
      laid(discAndBars(45), { sheet: strips.value }),
      laid(discAndBars(125), { named: 'a4' }),
      laid(films, { named: 'letter' }),
    ])
      expect(said(layout)).toEqual([]);
  });
});

describe('sheet boundaries the user moves', () => {
  const at = (layout: FaceLayout, film = 0) =>
    layout.films[film]!.sheets.flatMap((sheet) =>
      sheet.seams.filter((seam) => seam.with > sheet.index).map(({ band }) => band.x + band.width / 2),
    );

  test('stand where they were put, to a pixel, while other films keep their own', () => {
    const before = laid(films, { named: 'a3' });
    const wished = at(before).map((u, i) => u + (i === 1 ? -4 : 0));
    const outcome = layOutFace({
      ...request(films, { named: 'a3' }),
      options: { boundaries: { 'ink-1': wished } },
    });
    if (!outcome.ok) throw new Error(outcome.reason);
    for (const [i, u] of at(outcome.value).entries())
      expect(Math.abs(u - wished[i]!)).toBeLessThan(25.4 / 100);
    expect(at(outcome.value, 1)).toEqual(at(before, 1));
    expect(rejoined(outcome.value, 0).data).toEqual(filmMask(outcome.value.films[0]!).data);
  });

  test('asked for anywhere at all leave sheets that fit the printer and join to the film, seed 3', () => {
    const few = films.slice(3, 4);
    const count = at(laid(few)).length;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -900, max: 900 }), { minLength: count, maxLength: count }),
        (wished) => {
          const outcome = layOutFace({
            ...request(few),
            options: { boundaries: { [few[0]!.inkId]: wished } },
          });
          if (!outcome.ok) throw new Error(outcome.reason);
          const film = outcome.value.films[0]!;
          for (const sheet of film.sheets) {
            const w = sheet.window;
            for (const [X, Y] of [
              apply(sheet.filmToPage, w.x, w.y),
              apply(sheet.filmToPage, w.x + w.width, w.y + w.height),
            ]) {
              expect(Math.min(X, Y)).toBeGreaterThan(5 - 1e-6);
              expect(X).toBeLessThan(205 + 1e-6);
              expect(Y).toBeLessThan(292 + 1e-6);
            }
          }
          expect(
            Buffer.compare(
              Buffer.from(rejoined(outcome.value, 0).data.buffer),
              Buffer.from(filmMask(film).data.buffer),
            ),
          ).toBe(0);
        },
      ),
      { seed: 3, numRuns: 25 },
    );
  });
});

describe('faces with little on them', () => {
  test('a film without ink still carries its marks, and it is said', () => {
    const empty = { ...films[0]!, mask: blankMask(films[0]!.mask.width, films[0]!.mask.height), pulls: 1 };
    const layout = laid([empty]);
    expect(layout.films[0]!.inkedCm2).toBe(0);
    expect(layout.films[0]!.marks.filter((mark) => mark.kind === 'registration').length).toBe(4);
    expect(layout.films[0]!.marks.filter((mark) => mark.kind === 'hole').length).toBe(8);
    expect(layout.notes.join(' ')).toMatch(/nothing to print/);
  });

  test('inked area is the count of inked pixels: a 40 × 30 mm block is 12 cm²', () => {
    const mask = blankMask(films[0]!.mask.width, films[0]!.mask.height);
    const { box, dpi } = films[0]!;
    const area = { x: -20, y: -15, width: 40, height: 30 };
    paint(mask, box, dpi, area, (u, v) => Math.abs(u) < 20 && Math.abs(v) < 15);
    expect(laid([{ ...films[0]!, mask, pulls: 1 }]).films[0]!.inkedCm2).toBeCloseTo(12, 1);
  });
});

describe('any box, any sheet', () => {
  test('windows tile the film, no ink is lost, nothing leaves the printer’s reach, seed 7', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 30, max: 1100 }),
          height: fc.integer({ min: 20, max: 400 }),
          sheetW: fc.integer({ min: 120, max: 330 }),
          sheetH: fc.integer({ min: 160, max: 600 }),
          margin: fc.integer({ min: 0, max: 12 }),
          overlap: fc.integer({ min: 0, max: 25 }),
          mirror: fc.boolean(),
          salt: fc.integer({ min: 0, max: 2 ** 30 }),
        }),
        (c) => {
          const dpi = 50.8;
          const [w, h] = [c.width * 2, c.height * 2];
          const mask = blankMask(w, h);
          const box = { x: -c.width / 2, y: -c.height / 2, width: c.width, height: c.height };
          const random = seeded(c.salt);
          for (let i = 0; i < 6; i++) {
            const [u, v, r] = [(random() - 0.5) * c.width, (random() - 0.5) * c.height, 2 + random() * 20];
            paint(
              mask,
              box,
              dpi,
              { x: u - r, y: v - r, width: 2 * r, height: 2 * r },
              (x, y) => (x - u) ** 2 + (y - v) ** 2 < r * r,
            );
          }
          const art = {
            inkId: 'a',
            inkName: 'a',
            hex: '#000000',
            pull: 1,
            pulls: 2,
            meshPerCm: 77,
            mask,
            box,
            dpi,
          };
          const outcome = layOutFace({
            face: 'top',
            jobName: 'random',
            films: [art],
            holes: [],
            printer: printer({
              sheet: { name: 'custom', width: c.sheetW, height: c.sheetH },
              margin: c.margin,
              overlap: c.overlap,
              mirror: c.mirror,
            }),
          });
          if (!outcome.ok) {
            expect(outcome.reason).toMatch(/too little room|would need/);
            return;
          }
          const film = outcome.value.films[0]!;
          const joined = rejoined(outcome.value, 0);
          expect(
            Buffer.compare(Buffer.from(joined.data.buffer), Buffer.from(filmMask(film).data.buffer)),
          ).toBe(0);
          // No ink of the art is left out of the film's box.
          const count = (m: Mask) => {
            let n = 0;
            for (let y = 0; y < (m.height as number); y++)
              for (let x = 0; x < (m.width as number); x++) n += bit(m, x, y);
            return n;
          };
          expect(count(joined)).toBe(count(mask));
          for (const s of film.sheets) {
            const [a, b] = [
              apply(s.filmToPage, s.window.x, s.window.y),
              apply(s.filmToPage, s.window.x + s.window.width, s.window.y + s.window.height),
            ];
            for (const [x, y] of [a, b]) {
              expect(x).toBeGreaterThan(c.margin - 1e-6);
              expect(x).toBeLessThan(c.sheetW - c.margin + 1e-6);
              expect(y).toBeGreaterThan(c.margin - 1e-6);
              expect(y).toBeLessThan(c.sheetH - c.margin + 1e-6);
            }
            for (const shape of s.labels) {
              const at = boundsOf([shape])!;
              expect(at.x).toBeGreaterThan(c.margin - 0.2);
              expect(at.y).toBeGreaterThan(c.margin - 0.2);
              expect(at.x + at.width).toBeLessThan(c.sheetW - c.margin + 0.2);
              expect(at.y + at.height).toBeLessThan(c.sheetH - c.margin + 0.2);
            }
          }
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});
