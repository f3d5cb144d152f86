import { lettering, line, place, type Shape, VERNIER_FIRST, VERNIER_TICKS } from '../film/index.ts';
import { BLACK, type Paper, type Tint } from './paper.ts';

export const ACCENT: Tint = [0.78, 0.22, 0.1];
export const SOFT: Tint = [0.42, 0.4, 0.37];
export const TAPE: Tint = [0.93, 0.78, 0.47];

type Step = readonly [head: string, rest: string];

const MEASURE: Step = [
  'Measure one sheet first.',
  'Print at 100 %, with no fitting to the page. Lay a steel rule along the ruler on the label strip: 100 mm must measure 100 mm to within 0.2 mm. If it does not, print calibration.pdf, measure it, enter the four lengths at the Films station and print the films again.',
];
const LOOK: Step = [
  'Look through the black patch.',
  'Hold it against a lamp. If you see the lamp through it, the film will not hold back the exposure: use the darkest setting, or a toner darkener.',
];
const APART: Step = [
  'Cut films apart that share a sheet.',
  'Along the broken line between them, with a steel rule and a new blade.',
];
/** How to go on; `stacked`: some sheets lie one above the other. */
const goOn = (stacked: boolean): Step => [
  'Go on from tail to nose.',
  `Always add the next number.${stacked ? ' Sheets that lie one above the other are joined before their neighbours.' : ''} Then measure the whole film: the distance between the ring marks at its two ends is given on the page of each film.`,
];
const JOIN: readonly Step[] = [
  [
    'Lay sheets 1 and 2 on the light table.',
    'Toner up, arrows all pointing the same way. Each sheet shows the same strip of art where they meet. Slide sheet 2 over sheet 1 until the four cross-hairs in that strip fall together; where the strip has scales, their long ticks run through in one line.',
  ],
  [
    'Pin them at the edges.',
    'Use small pieces of removable tape, away from the cut. Look again: taping moves sheets.',
  ],
  [
    'Cut through both sheets at once.',
    'Lay a steel rule from cut tick to cut tick (the fine lines at the edges of the film) and cut in one pass with a new blade. Where the page of the film says shaped cut, follow the broken line on the upper sheet instead, leaving the line itself on the waste. Lift off both waste strips: the end of the left sheet, and the start of the right one with its label strip.',
  ],
  [
    'Butt the edges and tape the joint.',
    'Clear tape, on the bare side, not on the toner: first at the points marked, then along the whole joint. Edges touch; nothing overlaps.',
  ],
];
const TOUCH_UP: Step = [
  'Touch up.',
  'Where a cut crosses ink, a line of light may come through: the page of each film lists the places. Cover them with opaque film ink on the bare side. “Aslant” tells of a cut that runs slantwise through ink: its thin edge tears, so cut slowly there. Scrape off any cross-hair or scale that stands among the art: whatever is black will print.',
];
const WHOLE: Step = [
  'Measure each film.',
  'Every film is one sheet, so nothing is taped. The distance between the ring marks at its two ends is given on its page.',
];
const COMPARE: Step = [
  'Compare the films of a face.',
  'Lay each finished film over that of pull 1: ring marks and truck-hole crosses must all fall together.',
];

/**
 * What to do, in order, with films that are `joined` of sheets, `stacked` ones among them, or that have `shared` sheets.
 * Trade practice, no source.
 */
export function assemblySteps(films: {
  readonly joined: boolean;
  readonly shared: boolean;
  readonly stacked: boolean;
}): readonly Step[] {
  const { joined, shared, stacked } = films;
  const whole = joined ? [...JOIN, goOn(stacked), TOUCH_UP] : [WHOLE];
  return [MEASURE, LOOK, ...(shared ? [APART] : []), ...whole, COMPARE];
}

/** The usual cautions for knives. */
export const CAUTION =
  'Take care with blades: cut on a mat with a steel safety rule, away from you, fingers behind the raised edge and never in the blade’s path; change a dull blade rather than press harder; draw the blade in when you put the knife down, and keep broken-off pieces in a closed tin. Toner darkener and film ink give off vapour: follow the maker’s safety data sheet and air the room.';

/** Two scales `times` larger than printed, the moving one pushed by `shift` mm; origin at the fixed scale's long tick. */
export function vernierPicture(
  shift: number,
  times: number,
): { readonly fixed: Shape[]; readonly moving: Shape[]; readonly match: number } {
  const fixed: Shape[] = [];
  const moving: Shape[] = [];
  for (let i = 0; i < VERNIER_TICKS; i++) {
    const n = VERNIER_FIRST + i;
    const length = (n === 0 ? 2.6 : 1.8) * times;
    fixed.push(line(0.35, [n * times, 0], [n * times, length]));
    const x = (n * 0.9 + shift) * times;
    moving.push(line(0.35, [x, 0], [x, -length]));
  }
  return { fixed, moving, match: Math.round(shift * 10) };
}

/** The picture of how to read a vernier, its left end at x and its middle line at y. */
export function drawVernier(paper: Paper, x: number, y: number): void {
  const times = 4;
  const { fixed, moving, match } = vernierPicture(0.3, times);
  const at = x - VERNIER_FIRST * times + 2;
  paper.shapes(place(fixed, [1, 0, 0, 1, at, y]), BLACK);
  paper.shapes(place(moving, [1, 0, 0, 1, at, y]), ACCENT);
  paper.shapes([line(0.2, [at + match * times, y + 10.5], [at + match * times, y + 13])], ACCENT);
  const words = lettering('+3', 2.6, 0.35);
  paper.shapes(place(words.shapes, [1, 0, 0, 1, at + match * times - words.width / 2, y + 13.8]), ACCENT);
  paper.text(at + 6 * times, y + 3, 'first pull, or the sheet nearer the tail', 8.5);
  paper.text(at + 6 * times, y - 5, 'later pull, or the sheet nearer the nose', 8.5, { tint: ACCENT });
}
