import { crop, intersect, isBlank } from '../../raster/index.ts';
import { pxPerMm, toPx } from '../../units/index.ts';
import { discMask } from '../discMask.ts';
import type { FaceRule } from '../rule.ts';
import { thinLines } from '../thinLines.ts';
import { counted, listed, placeText } from '../wording.ts';

/** mm round the hole's edge that a bolt head or a base plate's edge covers or rubs. Common practice, no source. */
const BOLT_MARGIN = 2.5;
/** mm; lines thinner than this are fine art to a bolt. */
const FINE_MM = 1.2;

/** Truck holes that fall into fine detail: lines, or three and more things meeting (bare wood counts as one). */
export const holeInArt: FaceRule = (job, facts) => {
  const radius = job.deck.holes.diameter / 2 + BOLT_MARGIN;
  const scale = pxPerMm(facts.dpi);
  const reach = Math.ceil(toPx(radius + 2 * FINE_MM, facts.dpi));
  const top = facts.box.y + facts.box.height;
  const disc = discMask(2 * reach + 1, toPx(radius, facts.dpi));
  const hit = facts.holes.filter(({ s, t }) => {
    const x = Math.floor((s - facts.box.x) * scale) - reach;
    const y = Math.floor((top - t) * scale) - reach;
    let inks = 0;
    let fine = false;
    for (const separation of facts.separations) {
      const part = crop(separation, x, y, disc.width, disc.height);
      if (isBlank(intersect(part, disc))) continue;
      inks++;
      const lines = thinLines(part, toPx(FINE_MM, facts.dpi));
      if (!isBlank(intersect(lines, disc, lines))) fine = true;
    }
    return inks >= 3 || fine;
  });
  if (hit.length === 0) return [];
  const at = { s: hit[0]!.s, t: hit[0]!.t };
  return [
    {
      code: 'holes-in-art',
      severity: 'note',
      face: facts.face,
      ink: null,
      art: null,
      what: `${counted(hit.length, 'truck hole falls', 'truck holes fall')} into fine parts of the art; bolts and base plates will hide or rub them.`.replace(
        /^o/,
        'O',
      ),
      where: listed(hit.slice(0, 2).map((hole) => placeText(job, hole))),
      at,
      mend: 'Move the art a little, or keep the holes clear.',
    },
  ];
};
