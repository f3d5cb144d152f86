import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import {
  apply,
  type FaceLayout,
  filmManifest,
  type LayOutOptions,
  layOutFace,
  printerSheet,
} from '../../../core/film/index.ts';
import { blankMask } from '../../../core/raster/index.ts';
import { HOLES, paint, request } from './testFace.ts';

/** Two films of a small crest, `u` mm from mid-wheelbase and `v` mm off the centreline, on a deck-long raster. */
function crest(u = 0, v = 0, wide = 140, high = 110) {
  const dpi = 100;
  const s = dpi / 25.4;
  const [width, height] = [Math.round(830 * s), Math.round(210 * s)];
  const box = { x: -width / 2 / s, y: -height / 2 / s, width: width / s, height: height / s };
  return [1, 2].map((pull) => {
    const mask = blankMask(width, height);
    const area = { x: u - wide / 2, y: v - high / 2, width: wide, height: high };
    paint(
      mask,
      box,
      dpi,
      area,
      (x, y) => (((x - u) / wide) ** 2 + ((y - v) / high) ** 2) * 4 < 1 && (x + y * pull) % 9 < 5,
    );
    return {
      inkId: `i${pull}`,
      inkName: `ink ${pull}`,
      hex: '#000000',
      pull,
      pulls: 2,
      meshPerCm: 77,
      mask,
      box,
      dpi,
    };
  });
}

function laid(
  films: ReturnType<typeof crest>,
  options: LayOutOptions,
  named = 'a4',
  mirror = false,
): FaceLayout {
  const outcome = layOutFace({ ...request(films, { named, mirror }), options });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('a small top graphic', () => {
  for (const named of ['a4', 'letter']) {
    test(`takes one ${named} sheet a film, with ring marks on the centreline, and says what that leaves out`, () => {
      const layout = laid(crest(), {}, named);
      expect(layout.films.map((film) => film.sheets.length)).toEqual([1, 1]);
      expect(layout.pages).toBe(2);
      const rings = layout.films[0]!.marks.filter((mark) => mark.kind === 'registration');
      expect(rings.length).toBe(4);
      expect(rings.filter((mark) => Math.abs(mark.y) < 1e-9).length).toBe(2);
      expect(layout.films[1]!.marks.map(({ kind, x, y }) => [kind, x, y])).toEqual(
        layout.films[0]!.marks.map(({ kind, x, y }) => [kind, x, y]),
      );
      expect(layout.notes.join(' ')).toMatch(/close about the art, which saves 2 sheets/);
      expect(layout.notes.join(' ')).toMatch(/8 truck holes lie too far/);
    });
  }

  test('keeps its truck holes, and more sheets, when the user wants the marks of the whole deck', () => {
    const layout = laid(crest(), { marks: 'deck' });
    expect(layout.films[0]!.marks.filter((mark) => mark.kind === 'hole').length).toBe(8);
    expect(layout.films[0]!.sheets.length).toBeGreaterThan(1);
  });

  test('over one truck has that truck’s holes as far as they fall inside, and marks about itself', () => {
    const layout = laid(crest(208, 0, 120, 130), {});
    const film = layout.films[0]!;
    const holes = film.marks.filter((mark) => mark.kind === 'hole');
    for (const hole of holes)
      expect(HOLES.some(({ u, v }) => u === hole.x && v === hole.y && u > 0)).toBe(true);
    const sides = film.marks.filter((mark) => mark.kind === 'registration' && Math.abs(mark.y) > 1);
    for (const mark of sides) expect(Math.abs(mark.x - 208)).toBeLessThan(2);
    for (const mark of film.marks) {
      const box = boundsOf(mark.shapes);
      if (box) expect(box.x).toBeGreaterThanOrEqual(film.box.x);
    }
  });

  for (const mirror of [false, true]) {
    test(`shares a sheet with its other ink when allowed${mirror ? ', wrong reading too' : ''}: windows, labels and the cut line keep apart and within reach`, () => {
      const layout = laid(crest(0, 0, 140, 96), { shareSheets: true }, 'a4', mirror);
      expect(layout.pages).toBe(1);
      expect(layout.cutLines.length).toBe(1);
      const areas = layout.films.map((film) => {
        const sheet = film.sheets[0]!;
        expect(sheet.page).toBe(0);
        const w = sheet.window;
        const corners = [
          apply(sheet.filmToPage, w.x, w.y),
          apply(sheet.filmToPage, w.x + w.width, w.y + w.height),
        ];
        const strip = boundsOf(sheet.labels)!;
        const x = [...corners.map((c) => c[0]), strip.x, strip.x + strip.width];
        const y = [...corners.map((c) => c[1]), strip.y, strip.y + strip.height];
        return [Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y)] as const;
      });
      for (const [x0, y0, x1, y1] of areas) {
        expect(Math.min(x0, y0)).toBeGreaterThanOrEqual(5 - 1e-6);
        expect(x1).toBeLessThanOrEqual(205 + 1e-6);
        expect(y1).toBeLessThanOrEqual(292 + 1e-6);
      }
      const [a, b] = areas as [(typeof areas)[0], (typeof areas)[0]];
      expect(Math.max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])).toBeGreaterThan(3.9);
      const cut = boundsOf(layout.cutLines[0]!.shapes)!;
      for (const [x0, y0, x1, y1] of areas) {
        const clear = Math.max(cut.x - x1, x0 - cut.x - cut.width, cut.y - y1, y0 - cut.y - cut.height);
        expect(clear).toBeGreaterThan(1.5);
      }
      // Both say page 1, and where on it they are.
      const manifest = filmManifest('job', [layout], () => ({ x: 0, y: 0 }));
      expect(manifest.films.map((film) => film.sheets[0]!.page)).toEqual([1, 1]);
      expect(manifest.films[0]!.sheets[0]!.filmToPage).not.toEqual(manifest.films[1]!.sheets[0]!.filmToPage);
    });
  }

  test('never shares unless allowed', () => {
    expect(laid(crest(0, 0, 140, 96), {}).pages).toBe(2);
  });
});

describe('rolls', () => {
  test('are cut to hold a deck’s whole film: 610 mm wide, one page a film', () => {
    const sheet = printerSheet({ sheet: 'roll-610', sheetWidth: 0, sheetHeight: 0 }, 832);
    if (!sheet.ok) throw new Error(sheet.reason);
    expect(sheet.value).toEqual({ name: 'roll-610', width: 610, height: 910 });
    expect(printerSheet({ sheet: 'roll-9999', sheetWidth: 0, sheetHeight: 0 }, 832).ok).toBe(false);
    const outcome = layOutFace({ ...request(crest(), { sheet: sheet.value }), options: { marks: 'deck' } });
    if (!outcome.ok) throw new Error(outcome.reason);
    expect(outcome.value.films.map((film) => film.sheets.length)).toEqual([1, 1]);
  });
});
