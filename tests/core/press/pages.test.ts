import { deflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { truckHoles } from '../../../core/deck/index.ts';
import type { FilmPrinter } from '../../../core/film/index.ts';
import { stepTestPdf, templatesPdf } from '../../../core/pdf/index.ts';
import { drawing, jigDrawing, squeegeeDrawing } from '../../../core/press/index.ts';
import { PLAIN } from '../deck/anyDeck.ts';
import { type Bitmap, TOOLS, withPdf } from '../pdf/renderers.ts';

// Letter by ANSI/ASME Y14.1.
const PRINTER: FilmPrinter = {
  sheet: { name: 'letter', width: 215.9, height: 279.4 },
  margin: 5,
  scaleX: 1,
  scaleY: 1,
  overlap: 20,
  mirror: false,
};
const deflate = (bytes: Uint8Array) => new Uint8Array(deflateSync(bytes));
const DPI = 600;
const px = (mm: number) => (mm * DPI) / 25.4;
const jig = () => {
  const made = jigDrawing(PLAIN, 'bottom', {
    frameWidth: 400,
    frameLength: 1060,
    frameBar: 30,
    hinge: 'near',
  });
  if (!made.ok) throw new Error(made.reason);
  // As the press files have it: the frame takes no sheets of its own.
  const { name, title, items } = made.value;
  return drawing(
    name,
    title,
    items.filter((item) => item.layer !== 'frame'),
    2,
  );
};

/** Middles, px from the left, of the black runs along a row of the page `y` mm from its foot. */
function runs(page: Bitmap, y: number): number[] {
  const row = Math.round(page.height - px(y));
  const found: number[] = [];
  let start = -1;
  for (let x = 0; x <= page.width; x++) {
    const black = x < page.width && page.black(x, row);
    if (black && start < 0) start = x;
    if (!black && start >= 0) {
      found.push((start + x - 1) / 2);
      start = -1;
    }
  }
  return found;
}

const pdfOf = async (printer: FilmPrinter = PRINTER) => {
  const made = await templatesPdf([jig()], printer, { title: 'Jig', deflate });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

test.skipIf(!TOOLS.poppler)('the ruler on a rendered jig page is 100 mm to 0.1 mm', async () => {
  withPdf(await pdfOf(), (render) => {
    // 3 mm over the ruler's base only the ticks of whole centimetres stand.
    const ticks = runs(render('poppler', 1, DPI), 5 + 2 + 1 + 2.6).filter((x) => x < px(7 + 101));
    expect(ticks).toHaveLength(11);
    expect(Math.abs(((ticks[10]! - ticks[0]!) * 25.4) / DPI - 100)).toBeLessThan(0.1);
    for (let i = 1; i <= 10; i++)
      expect(Math.abs(((ticks[i]! - ticks[i - 1]!) * 25.4) / DPI - 10)).toBeLessThan(0.1);
  });
});

test.skipIf(!TOOLS.mupdf)('a printer that prints 2 % long gets a page that much shorter', async () => {
  withPdf(await pdfOf({ ...PRINTER, scaleX: 1.02 }), (render) => {
    const middle = 107.95;
    const ticks = runs(render('mupdf', 1, DPI), 10.6).filter((x) => x < px(middle + (108 - middle) / 1.02));
    expect(Math.abs((((ticks[10]! - ticks[0]!) * 25.4) / DPI) * 1.02 - 100)).toBeLessThan(0.1);
  });
});

test.skipIf(!TOOLS.poppler)(
  'truck holes on rendered jig sheets lie as the deck says, to 0.1 mm',
  async () => {
    withPdf(await pdfOf(), (render) => {
      // The jig lies turned, nose up, so the first sheet holds the two outer holes of the nose.
      const page = render('poppler', 1, DPI);
      const r = px(PLAIN.holes.diameter / 2);
      const reach = Math.round(r + px(1.5));
      const ring = Math.round(r * Math.SQRT1_2);
      const centres: [number, number][] = [];
      // A centre is where a level and an upright stroke meet, whole beyond the hole on every side, the hole's ring round it.
      for (let y = reach; y < page.height - reach; y++)
        for (let x = reach; x < page.width - reach; x++) {
          if (!page.black(x, y) || !page.black(x - reach, y) || !page.black(x + reach, y)) continue;
          if (!page.black(x, y - reach) || !page.black(x, y + reach)) continue;
          if (page.black(x - ring, y - ring) || page.black(x + ring, y + ring)) centres.push([x, y]);
        }
      const groups: [number, number][][] = [];
      for (const c of centres) {
        const group = groups.find(([g]) => g && Math.hypot(g[0] - c[0], g[1] - c[1]) < px(2));
        if (group) group.push(c);
        else groups.push([c]);
      }
      const middle = (list: [number, number][], k: 0 | 1) =>
        list.reduce((sum, c) => sum + c[k], 0) / list.length;
      const holes = groups.map((g) => [middle(g, 0), middle(g, 1)] as const);
      const [a, b] = truckHoles(PLAIN, 'bottom');
      const across = Math.abs(b!.y - a!.y);
      const apart = holes.flatMap((p, i) =>
        holes.slice(i + 1).map((q) => (Math.hypot(p[0] - q[0], p[1] - q[1]) * 25.4) / DPI),
      );
      expect(holes.length).toBeGreaterThanOrEqual(2);
      expect(Math.min(...apart.map((d) => Math.abs(d - across)))).toBeLessThan(0.1);
    });
  },
);

test.skipIf(!TOOLS.poppler)(
  'the squeegee’s edge on a rendered page rises as the sagitta formula says',
  async () => {
    const input = { face: 'bottom' as const, width: 200, depth: 10, thickness: 11, blade: 180, plies: 4 };
    const drawn = squeegeeDrawing(input);
    if (!drawn.ok) throw new Error(drawn.reason);
    // Only the edge, on a sheet wide enough to hold it upright.
    const edge = {
      ...drawn.value,
      items: drawn.value.items.slice(0, 1),
      box: { x: -96, y: -15, width: 192, height: 112 },
    };
    const made = await templatesPdf([edge], PRINTER, { title: 'Edge', deflate });
    if (!made.ok) throw new Error(made.reason);
    withPdf(made.value, (render) => {
      const page = render('poppler', 1, DPI);
      // The window begins 7 mm from the left and 22 mm from the foot.
      const at = (mm: number) => {
        const x = Math.round(px(7 + 96 + mm));
        for (let y = Math.round(page.height - px(22 + 1)); y > 0; y--)
          if (page.black(x, y)) {
            let top = y;
            while (page.black(x, top)) top--;
            return ((page.height - (y + top + 1) / 2) * 25.4) / DPI;
          }
        return Number.NaN;
      };
      // ρ = 505 + 11 by hand; 516 − √(516² − 60²) is 3.50 mm.
      expect(Math.abs(at(0) - at(60) - (516 - Math.sqrt(516 ** 2 - 60 ** 2)))).toBeLessThan(0.1);
      expect(Math.abs(at(0) - at(-80) - (516 - Math.sqrt(516 ** 2 - 80 ** 2)))).toBeLessThan(0.1);
    });
  },
);

test.skipIf(!TOOLS.poppler)(
  'the step-test film has nine strips with lines of the widths it states',
  async () => {
    const made = await stepTestPdf(PRINTER, { strips: 9, factor: Math.SQRT2, deflate });
    if (!made.ok) throw new Error(made.reason);
    withPdf(made.value, (render) => {
      const page = render('poppler', 1, 1200);
      const row = (y: number) => Math.round(page.height - (y * 1200) / 25.4);
      const each = Math.min(28, (279.4 - 31 - 27) / 9);
      for (let strip = 0; strip < 9; strip++) {
        const y = row(31 + strip * each + each * 0.72);
        const widths: number[] = [];
        let start = -1;
        const from = Math.round((20 * 1200) / 25.4);
        for (let x = from; x < page.width; x++) {
          const black = page.black(x, y);
          if (black && start < 0) start = x;
          if (!black && start >= 0) {
            widths.push(((x - start) * 25.4) / 1200);
            start = -1;
          }
        }
        const lines = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1].flatMap((w) => [w, w, w]);
        // Between three lines of a width a dot may stand in the row: keep the lines by their count.
        const found = widths.filter((w) => w > 0.05);
        expect(found.length).toBeGreaterThanOrEqual(lines.length);
        for (const w of lines) expect(found.some((f) => Math.abs(f - w) < 0.03)).toBe(true);
      }
    });
  },
);

test('a sheet too small for templates is refused in a sentence', async () => {
  const tiny = { ...PRINTER, sheet: { name: 'card', width: 50, height: 50 } };
  expect(await templatesPdf([jig()], tiny, { title: 'Jig', deflate })).toMatchObject({
    ok: false,
    kind: 'input',
  });
  expect(await stepTestPdf(tiny, { strips: 9, factor: 1.4, deflate })).toMatchObject({ ok: false });
});

test('the same drawing gives the same bytes', async () => {
  const [a, b] = [await pdfOf(), await pdfOf()];
  expect(Buffer.from(a).equals(Buffer.from(b))).toBe(true);
});
