import { zlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { calibrationFrame } from '../../../core/film/index.ts';
import { calibrationPdf } from '../../../core/pdf/index.ts';
import { printer } from '../film/testFace.ts';
import { TOOLS, withPdf } from './renderers.ts';

const deflate = (bytes: Uint8Array) => zlibSync(bytes, { level: 6 });

describe('calibration sheet', () => {
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

  test('a sheet too small to measure is refused', async () => {
    const outcome = await calibrationPdf(printer({ sheet: { name: 'custom', width: 40, height: 50 } }), {
      deflate,
      corrected: false,
    });
    expect(outcome.ok).toBe(false);
  });
});
