import { describe, expect, test } from 'vitest';
import { getBit, type Mask, type Plane, screenTile, thresholdMask } from '../../../core/raster/index.ts';
import { filmTone, gainTable, printedTone } from '../../../core/separate/index.ts';

const tint = (v: number): Plane => ({
  width: 240,
  height: 240,
  data: new Uint8Array(240 * 240).fill(v),
});

/** Means of three points along rows and columns, three times over: ink spread over the edges of its dots. */
function spread(mask: Mask): Float64Array {
  const { width, height } = mask;
  let from = Float64Array.from({ length: width * height }, (_, i) =>
    getBit(mask, i % width, Math.floor(i / width)) ? 1 : 0,
  );
  for (const step of [1, width, 1, width, 1, width]) {
    const to = new Float64Array(from.length);
    for (let i = 0; i < to.length; i++)
      to[i] = ((from[i - step] ?? from[i]!) + from[i]! + (from[i + step] ?? from[i]!)) / 3;
    from = to;
  }
  return from;
}

/**
 * A press that spreads ink over a dot's edge and darkens more where it is spread thin: the tone a film's tone prints as. It
 * works on the real screen's dots and knows none of the curve's formulas.
 */
function press(dot: 'round' | 'elliptical' | 'line', lpi: number) {
  const tile = screenTile({ lpi, angle: 22.5, dot, dpi: 600 });
  return (film: number) => {
    const ink = spread(thresholdMask(tint(film), tile));
    return ink.reduce((sum, b) => sum + 1 - (1 - b) ** 1.8, 0) / ink.length;
  };
}

describe('dot gain', () => {
  test.each([
    ['round', 40],
    ['elliptical', 30],
    ['line', 35],
  ] as const)(
    'a ramp of %s dots, %d lines an inch, prints within a hundredth of what was asked once patches are measured',
    (dot, lpi) => {
      const printed = press(dot, lpi);
      const steps = Array.from({ length: 24 }, (_, i) => Math.round(((i + 1) * 255) / 25));
      const patches = steps.map((v) => ({ film: v / 255, printed: printed(v) }));
      const table = gainTable({ patches });
      let worstBefore = 0;
      let worst = 0;
      for (let asked = 0; asked <= 255; asked += 5) {
        const wanted = asked / 255;
        worstBefore = Math.max(worstBefore, Math.abs(printed(asked) - wanted));
        worst = Math.max(worst, Math.abs(printed(table[asked]!) - wanted));
      }
      expect(worstBefore).toBeGreaterThan(0.06);
      expect(worst).toBeLessThan(0.01);
    },
  );

  test('a midtone of 0.2 prints one half as 0.7 and is taken back out', () => {
    const printed = printedTone({ midtone: 0.2 });
    expect(printed(0.5)).toBeCloseTo(0.7, 12);
    // By hand: 0.2 + 2 · 0.2 · √(0.2 · 0.8) = 0.36.
    expect(printed(0.2)).toBeCloseTo(0.36, 12);
    const table = gainTable({ midtone: 0.2 });
    for (let asked = 0; asked <= 255; asked++) {
      // The first levels of 255 are coarse where the gain is steepest.
      const bound = asked < 8 ? 0.015 : 0.01;
      expect(Math.abs(printed(table[asked]! / 255) - asked / 255), String(asked)).toBeLessThan(bound);
    }
  });

  test('paper stays paper and solid solid, no gain changes nothing, and the curve never turns back', () => {
    expect([...gainTable({})]).toEqual(Array.from({ length: 256 }, (_, v) => v));
    const odd = {
      patches: [
        { film: 0.3, printed: 0.6 },
        { film: 0.5, printed: 0.5 },
        { film: 0.9, printed: 1 },
      ],
    };
    const printed = printedTone(odd);
    for (let i = 1, last = 0; i <= 500; i++) {
      expect(printed(i / 500)).toBeGreaterThanOrEqual(last - 1e-12);
      last = printed(i / 500);
    }
    for (const gain of [odd, { midtone: 0.4 }, { midtone: -0.15 }]) {
      const table = gainTable(gain);
      expect([table[0], table[255]]).toEqual([0, 255]);
    }
    expect(printed(0.3)).toBeCloseTo(0.6, 12);
    expect(printed(filmTone(printed, 0.3))).toBeCloseTo(0.3, 5);
  });
});
