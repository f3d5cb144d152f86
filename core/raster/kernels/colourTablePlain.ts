import type { ColourTable } from '../colourTable.ts';
import type { Picture } from '../picture.ts';

/** Parts of a level in sums: steps of the table times 256ths of its weights. */
const UNIT_BITS = 15;
const UNIT = 1 << UNIT_BITS;
const HALF = UNIT / 2;

/** Shares of every point by a table: the readable definition. */
export function colourTablePlain(
  { data }: Picture,
  { axes, planes, shares }: ColourTable,
  out: readonly Uint8Array[],
): void {
  const steps = [
    axes[1].levels.length * axes[2].levels.length * planes,
    axes[2].levels.length * planes,
    planes,
  ];
  const points = out[0]!.length;
  const place = [0, 0, 0, 0];
  for (let i = 0; i < points; i++) {
    const order = [0, 1, 2].map((c) => {
      const level = data[4 * i + c]!;
      const axis = axes[c as 0 | 1 | 2];
      return {
        from: axis.below[level]! * steps[c]!,
        step: steps[c]!,
        beyond: axis.beyond[level]!,
      };
    });
    place[0] = order[0]!.from + order[1]!.from + order[2]!.from;
    order.sort((a, b) => b.beyond - a.beyond);
    order.forEach(({ step }, k) => {
      place[k + 1] = place[k]! + step;
    });
    const [first, second, third] = order.map(({ beyond }) => beyond) as [number, number, number];
    const weights = [256 - first, first - second, second - third, third];
    const alpha = data[4 * i + 3]!;
    let sum = (255 - alpha) * UNIT + HALF;
    let given = 0;
    for (let p = 0; p < planes; p++) {
      let share = 0;
      for (let k = 0; k < 4; k++) share += weights[k]! * shares[place[k]! + p]!;
      sum += Math.floor((share * alpha) / 255);
      const upTo = p === planes - 1 || sum >= 255 * UNIT + HALF ? 255 : sum >> UNIT_BITS;
      out[p]![i] = upTo - given;
      given = upTo;
    }
  }
}
