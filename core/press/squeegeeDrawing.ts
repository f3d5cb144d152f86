import { acrossRiseAtPlan } from '../deck/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { type Drawing, type DrawnItem, drawing, path, text } from './drawing.ts';
import { sectionArc } from './section.ts';
import { curvedSqueegee, type SqueegeeInput } from './squeegee.ts';

/** mm of handle over the edge, and of block under the form. */
const HANDLE = 90;
const BLOCK = 40;
/** mm the form reaches beyond the blade on each side, so that the plies' ends are held. */
const BEYOND = 25;
/** mm between a curve's points: 1 mm on a 200 mm radius strays 0.6 µm. */
const STEP = 1;

/** The squeegee's edge and the form its plies are bent on, at 1:1, one above the other. mm. */
export function squeegeeDrawing(input: SqueegeeInput): Outcome<Drawing> {
  const worked = curvedSqueegee(input);
  if (!worked.ok) return worked;
  const { rise, radius, formRadius, edge } = worked.value.result;
  const { blade, face, plies } = input;
  const arc = sectionArc(input);
  // The bottom is a dome: the edge's ends reach further down than its middle. The top is a bowl: the other way.
  const down = face === 'bottom' ? -1 : 1;
  const curve = (half: number, at: (y: number) => number): [number, number][] => {
    const steps = Math.ceil((2 * half) / STEP);
    return Array.from({ length: steps + 1 }, (_, i) => {
      const y = -half + (2 * half * i) / steps;
      return [y, at(Math.abs(y))];
    });
  };
  const edgeAt = (y: number) => down * arc.riseAt(y);
  const half = blade / 2;
  const edgeCurve = curve(half, edgeAt);
  const items: DrawnItem[] = [
    path('cut', [...edgeCurve, [half, HANDLE], [-half, HANDLE]], true),
    path('mark', [
      [0, edgeAt(0) - 6],
      [0, edgeAt(0) + 8],
    ]),
    path('mark', [
      [0, HANDLE - 6],
      [0, HANDLE],
    ]),
    text(0, HANDLE - 14, 6, `Squeegee, ${face} face: blade ${blade} mm`, true),
    text(
      0,
      HANDLE - 24,
      4,
      radius === null ? 'straight edge' : `${edge} edge, radius ${radius.toFixed(1)} mm`,
      true,
    ),
    text(0, HANDLE - 32, 4, `middle to the line between the ends ${rise.toFixed(2)} mm`, true),
    text(0, 22, 4, 'curved line = edge of the blade', true),
  ];
  if (formRadius !== null) {
    const k = 1 / formRadius;
    const reach = Math.min(half + BEYOND, input.width / 2 + BEYOND, (arc.flat + formRadius) * 0.98);
    const formAt = (y: number) => down * acrossRiseAtPlan(y, arc.flat, k);
    const low = Math.min(formAt(0), formAt(reach));
    const high = Math.max(formAt(0), formAt(reach));
    // Below the edge, clear of it.
    const lift = Math.min(edgeAt(0), edgeAt(half)) - 25 - high;
    const bend = curve(reach, formAt).map(([x, y]): [number, number] => [x, y + lift]);
    const base = lift + low - BLOCK;
    items.push(
      path('cut', [...bend, [reach, base], [-reach, base]], true),
      path('mark', [
        [0, lift + formAt(0) - 8],
        [0, lift + formAt(0)],
      ]),
      text(0, base + 22, 5, `Bending form for ${plies} plies, radius ${formRadius.toFixed(1)} mm`, true),
      text(0, base + 13, 4, 'clamp the glued plies on this curve; they spring back to fit', true),
    );
    for (const x of [-half, half])
      items.push(
        path('mark', [
          [x, lift + formAt(half) - 8],
          [x, lift + formAt(half)],
        ]),
      );
  }
  return done(drawing(`squeegee-${face}`, `Squeegee and bending form, ${face} face`, items, 6));
}
