import { blankMask, fillRings, inkCount, isBlank, type Mask, subtract } from '../../raster/index.ts';
import { pxPerMm } from '../../units/index.ts';
import type { FaceFacts, PlacedArt } from '../input.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { percentText, placeText } from '../wording.ts';

/** Shares of a piece's ink below this are the raster's own rounding along an edge. */
const LEAST_SHARE = 0.0005;

/** The piece's own shape on the face's raster, and how much of it (points) lies beyond the raster altogether. */
function shapeOf(facts: FaceFacts, art: PlacedArt): { mask: Mask; beyondPx: number } {
  const scale = pxPerMm(facts.dpi);
  const top = facts.box.y + facts.box.height;
  const ring = art.ring.map(([s, t]) => [(s - facts.box.x) * scale, (top - t) * scale] as const);
  const { width, height } = facts.printable;
  const mask = fillRings(blankMask(width, height), [ring]);
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return { mask, beyondPx: Math.max(0, Math.abs(twice) / 2 - inkCount(mask)) };
}

/**
 * Ink outside the printable area is cut off. A piece that covers the whole area was laid to run past it: a note; one that
 * is cut on some sides only: a warning; one that lies wholly outside: an error.
 */
export const artOutside: FaceRule = (job, facts) =>
  facts.art.flatMap((art): Problem[] => {
    const shape = shapeOf(facts, art);
    const wanted = art.inked ?? shape.mask;
    const outside = subtract(wanted, facts.printable);
    // What lies beyond the raster is taken to be as full of ink as the rest of the piece.
    const inside = inkCount(shape.mask);
    const full = art.inked && inside > 0 ? inkCount(wanted) / inside : 1;
    const beyond = shape.beyondPx * full;
    const all = inkCount(wanted) + beyond;
    const lost = inkCount(outside) + beyond;
    const common = { face: facts.face, ink: null, art: art.id } as const;
    if (all === 0) return [];
    if (lost >= all)
      return [
        {
          ...common,
          code: 'art-outside',
          severity: 'error',
          what: `“${art.name}” lies wholly outside the printable area.`,
          where: 'whole face',
          at: spotsOf(facts, outside)?.at ?? null,
          mend: 'Move it onto the deck.',
        },
      ];
    if (lost / all < LEAST_SHARE) return [];
    const spots = spotsOf(facts, outside);
    const at = spots?.at ?? null;
    const where = at ? `largest part ${placeText(job, at)}` : 'whole face';
    if (isBlank(subtract(facts.printable, shape.mask)))
      return [
        {
          ...common,
          code: 'art-bleeds',
          severity: 'note',
          what: `“${art.name}” runs past the printable area on every side; ${percentText(lost / all)} of it is cut off there.`,
          where,
          at,
          mend: 'Nothing to do if that is meant; else make it smaller.',
        },
      ];
    return [
      {
        ...common,
        code: 'art-outside',
        severity: 'warning',
        what: `${percentText(lost / all)} of “${art.name}” lies outside the printable area and won't print.`,
        where,
        at,
        mend: 'Move it, make it smaller, or let it run past the edge on every side.',
      },
    ];
  });
