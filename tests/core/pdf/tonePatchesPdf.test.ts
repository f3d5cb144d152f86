import { writeFileSync } from 'node:fs';
import { zlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { PATCH_TONES, tonePatchesPdf } from '../../../core/pdf/index.ts';
import { printer } from '../film/testFace.ts';
import { TOOLS, withPdf } from './renderers.ts';

const deflate = (bytes: Uint8Array) => zlibSync(bytes, { level: 6 });
const DPI = 600;

describe('tone patches', () => {
  for (const [dot, lpi, angle] of [
    ['round', 45, 22.5],
    ['elliptical', 40, 75],
    ['line', 35, 45],
  ] as const)
    test.skipIf(!TOOLS.poppler)(
      `hold their tones to 1 % by an independent renderer: ${dot} dots, ${lpi} lines, ${angle}° (needs poppler)`,
      async () => {
        const facts = printer({ named: 'a4' });
        const page = await tonePatchesPdf(facts, { screen: { lpi, dot, angle }, dpi: DPI, deflate });
        if (!page.ok) throw new Error(page.reason);
        if (process.env['KICKFLAT_LOOK'])
          writeFileSync(`${process.env['KICKFLAT_LOOK']}/tones-${dot}.pdf`, page.value);
        const px = DPI / 25.4;
        withPdf(page.value, (render) => {
          const shown = render('poppler', 1, DPI);
          const { sheet, margin } = facts;
          const across = Math.floor((sheet.width - 2 * margin - 8 - 24) / 36) + 1;
          PATCH_TONES.forEach((tone, i) => {
            const left = (margin + 8 + (i % across) * 36 + 1) * px;
            const top = (margin + 40 + Math.floor(i / across) * 36 + 1) * px;
            let black = 0;
            let all = 0;
            for (let y = Math.round(top); y < top + 22 * px; y++)
              for (let x = Math.round(left); x < left + 22 * px; x++) {
                all++;
                if (shown.black(x, y)) black++;
              }
            expect(Math.abs((100 * black) / all - tone), `${tone} %`).toBeLessThan(1);
          });
        });
      },
      60_000,
    );

  test('need a sheet that holds them all', async () => {
    const small = { ...printer({ named: 'a4' }), sheet: { name: 'card', width: 80, height: 90 } };
    const page = await tonePatchesPdf(small, {
      screen: { lpi: 40, dot: 'round', angle: 45 },
      dpi: DPI,
      deflate,
    });
    expect(page.ok).toBe(false);
  });
});
