import { MM_PER_INCH } from '../../units/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';

/** Art pixels an inch of wood below which steps show at arm's length, and below which fine lettering suffers. Common practice. */
const COARSE_DPI = 150;
const FINE_DPI = 300;

/** Pixel art laid so large that its pixels show. */
export const lowResolution: FaceRule = (job, facts) =>
  facts.art.flatMap((art): Problem[] => {
    if (art.pxPerMm === null) return [];
    const dpi = art.pxPerMm * MM_PER_INCH;
    // Art made for 300 dpi and laid at its own size must pass in spite of rounding and the bend of the wood.
    if (dpi >= FINE_DPI * 0.98) return [];
    const coarse = dpi < COARSE_DPI;
    const piece = job.faces[facts.face].art.find(({ id }) => id === art.id);
    return [
      {
        code: 'low-resolution',
        severity: coarse ? 'warning' : 'note',
        face: facts.face,
        ink: null,
        art: art.id,
        what: `“${art.name}” has ${Math.round(dpi)} pixels an inch at this size${coarse ? '; its edges will look stepped or soft' : ', enough for bold shapes but not for fine lettering'}.`,
        where: 'whole face',
        at: piece && piece.wrap === 'surface' ? { s: piece.x, t: piece.y } : null,
        mend: `Use a picture ${(FINE_DPI / dpi).toFixed(1)} times as large each way, make it smaller on the deck, or draw it as SVG.`,
      },
    ];
  });
