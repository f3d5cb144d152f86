import {
  type Affine,
  apply,
  type FaceLayout,
  jointFactor,
  line,
  type Seam,
  type Stencil,
  vernierScale,
} from '../film/index.ts';
import { ACCENT, SOFT } from './assemblyGuide.ts';
import { FILM_INK, orderedCrossings, SHARED } from './filmPicture.ts';
import type { Paper, Tint } from './paper.ts';

/** Height on the page, mm, of a joint's picture `width` wide. */
export function jointHeight(seam: Seam, width: number): number {
  const { band, runs } = seam;
  return runs === 'across' ? (width * band.width) / band.height : (width * band.height) / band.width;
}

/**
 * A joint close up, its lower left corner at (x, y), `small` its ink, `jointFactor` times smaller: the shared strip with its ink, cross-hairs, scales, cut and numbered crossings.
 * A cut across the deck runs from the film's upper edge at the left to its lower edge at the right, nose up.
 */
export function drawJoint(
  paper: Paper,
  layout: FaceLayout,
  seam: Seam,
  at: { readonly x: number; readonly y: number; readonly width: number },
  small: Stencil,
): void {
  const { band, runs } = seam;
  const high = jointHeight(seam, at.width);
  const scale = runs === 'across' ? at.width / band.height : at.width / band.width;
  const toPaper: Affine =
    runs === 'across'
      ? [0, scale, -scale, 0, at.x + (band.y + band.height) * scale, at.y - band.x * scale]
      : [scale, 0, 0, scale, at.x - band.x * scale, at.y - band.y * scale];
  paper.rect(at.x, at.y, at.width, high, SHARED);
  const pixel = ((jointFactor(layout.dpi) * 25.4) / layout.dpi) * scale;
  const [wide, tall] = [small.width * pixel, small.height * pixel];
  paper.stencil(small, at.x, at.y + high - tall, wide, tall, FILM_INK);
  for (const [u, v] of seam.crossHairs) {
    const arm = 2;
    paper.shapes([
      line(0.2, apply(toPaper, u - arm, v), apply(toPaper, u + arm, v)),
      line(0.2, apply(toPaper, u, v - arm), apply(toPaper, u, v + arm)),
    ]);
  }
  for (const { x, y, reads } of seam.scales) {
    const there: Affine = reads === 'along' ? [1, 0, 0, 1, x, y] : [0, 1, 1, 0, x, y];
    for (const shape of [...vernierScale('fixed'), ...vernierScale('moving')])
      paper.shapes([line(0.15, ...shape.points.map(([p, q]) => apply(toPaper, ...apply(there, p, q))))]);
  }
  const [bottom, top] = [at.y + 2.2, at.y + high - 2.2];
  const points = seam.path.map(([u, v]) => apply(toPaper, u, v));
  paper.shapes([{ kind: 'line', width: 1.2, points }], [1, 1, 1]);
  paper.shapes([{ kind: 'line', width: 0.5, points }], ACCENT);
  paper.rect(at.x, at.y, at.width, high, null, SOFT, 0.2);
  const dot = (x: number, y: number, width: number, tint: Tint) =>
    paper.shapes([line(width, [x, y], [x, y])], tint);
  let taken: readonly (readonly [number, number])[] = [];
  for (const [i, [u, v]] of orderedCrossings(seam).slice(0, MOST_NUMBERS).entries()) {
    const [x, y] = apply(toPaper, u, v);
    // Numbers that would cover each other step aside, still within the strip.
    const free = ASIDE.map((aside) => y + aside).filter((one) => one > bottom && one < top);
    const place = free.find((one) => taken.every(([a, b]) => Math.hypot(a - x, b - one) > 4)) ?? y;
    taken = [...taken, [x, place]];
    dot(x, y, 1.6, ACCENT);
    if (place !== y) paper.shapes([line(0.3, [x, y], [x, place])], ACCENT);
    dot(x, place, 4.2, [1, 1, 1]);
    dot(x, place, 3.6, ACCENT);
    paper.text(x, place - 0.95, String(i + 1), 7.5, { bold: true, tint: [1, 1, 1], middle: true });
  }
}

/** mm a crossing's number may stand off its place, the most wanted first. */
const ASIDE = [0, 4.4, -4.4, 8.8, -8.8, 13.2, -13.2] as const;

/** More numbers than this would hide the strip. */
export const MOST_NUMBERS = 12;
