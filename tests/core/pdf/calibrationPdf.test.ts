import { zlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { calibrationFrame, lettering } from '../../../core/film/index.ts';
import { calibrationPdf, legendLines } from '../../../core/pdf/calibrationPdf.ts';
import { printer } from '../film/testFace.ts';
import { TOOLS, withPdf } from './renderers.ts';

const deflate = (bytes: Uint8Array) => zlibSync(bytes, { level: 6 });

describe('calibration sheet', () => {
  test('what to measure is 2.3 mm high on any sheet, in lines that stay between rulers, or is left out', () => {
    const said: string[] = [];
    for (const width of [60, 80, 100, 120, 148, 150, 216, 297])
      for (const height of [60, 100, 210, 400]) {
        const frame = calibrationFrame(printer({ sheet: { name: 'custom', width, height } }));
        if (!frame) continue;
        for (const corrected of [false, true]) {
          const { lines, size } = legendLines(frame, corrected);
          expect(size).toBeGreaterThanOrEqual(2.3);
          // Rulers take 20 mm of the frame at the left, its own edges 10 and more.
          for (const text of lines) expect(lettering(text, size).width).toBeLessThan(frame.width - 30);
          expect(lines.length * size * 1.9).toBeLessThan(frame.height - 20);
          if (lines.length > 0) {
            said.push(`${width} × ${height}`);
            expect(lines.join(' ')).toContain(`1 to 2: ${frame.width} mm`);
            expect(lines.join(' ')).toContain(`1 to 4: ${frame.height} mm`);
          }
        }
      }
    for (const sheet of ['120 × 210', '148 × 210', '150 × 400', '216 × 210']) expect(said).toContain(sheet);
  });

  for (const [named, scaleX] of [
    ['a4', 1],
    ['letter', 1],
    ['a4', 1.01],
  ] as const) {
    test.skipIf(!TOOLS.poppler)(
      `${named}: crosses are as far apart as stated, to 0.05 mm, on a printer of scale ${scaleX} (needs poppler)`,
      async () => {
        const facts = printer({ named, scaleX });
        const frame = calibrationFrame(facts)!;
        const outcome = await calibrationPdf(facts, { deflate, corrected: scaleX !== 1 });
        if (!outcome.ok) throw new Error(outcome.reason);
        const dpi = 600;
        const px = dpi / 25.4;
        withPdf(outcome.value, (render) => {
          const page = render('poppler', 1, dpi);
          // Crosses 1 and 2 reach 5 mm below the frame; find the middle of their uprights 4 mm below its edge.
          const y = Math.round((facts.sheet.height - frame.y + 2) * px);
          const middle = (from: number) => {
            let [sum, n] = [0, 0];
            for (let x = Math.round(from - 4 * px); x < from + 2 * px; x++)
              if (page.black(x, y)) [sum, n] = [sum + x + 0.5, n + 1];
            return sum / n;
          };
          const mid = facts.sheet.width / 2;
          const left = middle((mid - frame.width / 2 / scaleX) * px);
          const right = middle((mid + frame.width / 2 / scaleX) * px);
          expect(Math.abs(((right - left) / px) * scaleX - frame.width)).toBeLessThan(0.05);
        });
      },
    );
  }

  for (const tool of ['poppler', 'mupdf'] as const)
    test.skipIf(!TOOLS[tool])(
      `the check page of a printer with scale and lean comes out as stated when that printer prints it (needs ${tool})`,
      async () => {
        // A printer 0.7 % wide, 0.4 % short, leaning 0.3°, as its own definition says: printed = (sx·x + sy·sin·y, sy·cos·y)
        // about the sheet's middle. Its print is worked out here, from crosses found in an independent picture of the page.
        const facts = printer({ named: 'a4', scaleX: 1.007, scaleY: 0.996, skewDeg: 0.3 });
        const frame = calibrationFrame(facts)!;
        const outcome = await calibrationPdf(facts, { deflate, corrected: true });
        if (!outcome.ok) throw new Error(outcome.reason);
        const px = 600 / 25.4;
        const { width: W, height: H } = facts.sheet;
        const lean = (0.3 * Math.PI) / 180;
        withPdf(outcome.value, (render) => {
          const page = render(tool, 1, 600);
          /** The middle of a cross about (x, y) mm, from its four arms, 3.5 to 4.5 mm out, clear of rulers and figures. */
          const crossAt = (x: number, y: number, out: readonly [number, number]) => {
            const middle = (across: boolean) => {
              let [sum, n] = [0, 0];
              const [cx, cy] = [x * px, (H - y) * px];
              const aside = (across ? out[1] : out[0]) * 4 * px;
              for (let d = -2 * px; d <= 2 * px; d++) {
                const [i, j] = across ? [cx + d, cy - aside] : [cx + aside, cy - d];
                if (page.black(Math.round(i), Math.round(j))) [sum, n] = [sum + d, n + 1];
              }
              expect(n).toBeGreaterThan(2);
              // The arms lean too: carried back from 4 mm out to the cross.
              return sum / n / px;
            };
            return [x + middle(true), y + middle(false)] as const;
          };
          const asked = (x: number, y: number): readonly [number, number] => {
            const [dx, dy] = [x - W / 2, y - H / 2];
            const v = dy / (0.996 * Math.cos(lean));
            return [W / 2 + (dx - 0.996 * Math.sin(lean) * v) / 1.007, H / 2 + v];
          };
          const printed = ([x, y]: readonly [number, number]) => {
            const [dx, dy] = [x - W / 2, y - H / 2];
            return [1.007 * dx + 0.996 * Math.sin(lean) * dy, 0.996 * Math.cos(lean) * dy] as const;
          };
          const corners = [
            [frame.x, frame.y, [-1, -1]],
            [frame.x + frame.width, frame.y, [1, -1]],
            [frame.x + frame.width, frame.y + frame.height, [1, 1]],
            [frame.x, frame.y + frame.height, [-1, 1]],
          ] as const;
          const at = corners.map(([x, y, out]) => printed(crossAt(...asked(x, y), out)));
          const far = (a: number, b: number) => Math.hypot(at[a]![0] - at[b]![0], at[a]![1] - at[b]![1]);
          expect(Math.abs(far(0, 1) - frame.width)).toBeLessThan(0.1);
          expect(Math.abs(far(0, 3) - frame.height)).toBeLessThan(0.1);
          expect(Math.abs(far(0, 2) - frame.diagonal)).toBeLessThan(0.1);
          expect(Math.abs(far(1, 3) - frame.diagonal)).toBeLessThan(0.1);
        });
      },
    );

  test.skipIf(!TOOLS.poppler)(
    'a patch of solid black, 14 mm square, stands on the sheet (needs poppler)',
    async () => {
      const facts = printer({ named: 'letter' });
      const outcome = await calibrationPdf(facts, { deflate, corrected: false });
      if (!outcome.ok) throw new Error(outcome.reason);
      withPdf(outcome.value, (render) => {
        const page = render('poppler', 1, 100);
        let longest = 0;
        for (let y = 0; y < page.height; y++) {
          let run = 0;
          for (let x = 0; x < page.width; x++) {
            // 14 mm are 55 points at 100 dpi; the patch is as high as it is wide, which no line is.
            const solid = page.black(x, y) && page.black(x, Math.min(page.height - 1, y + 20));
            run = solid && page.black(x, Math.min(page.height - 1, y + 40)) ? run + 1 : 0;
            longest = Math.max(longest, run);
          }
        }
        expect(Math.abs(longest - 55)).toBeLessThanOrEqual(2);
      });
    },
  );

  test('a sheet too small to measure is refused', async () => {
    const outcome = await calibrationPdf(printer({ sheet: { name: 'custom', width: 40, height: 50 } }), {
      deflate,
      corrected: false,
    });
    expect(outcome.ok).toBe(false);
  });
});
