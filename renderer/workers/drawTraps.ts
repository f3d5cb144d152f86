import type { FacePreview } from '../../core/facePreview.ts';
import type { FaceJob } from '../../core/job/index.ts';
import { onBase, rulesOf } from '../../core/printInk.ts';
import { blankMask, type Mask, subtract, union } from '../../core/raster/index.ts';
import { trapInk } from '../../core/trap/index.ts';
import type { InkPair, Spread } from '../state/index.ts';
import { densest } from './densest.ts';
import { maskPicture } from './inkPicture.ts';

const beyond = (print: Mask, separation: Mask): Mask => subtract(print, separation);

/** Where the base is drawn in from the edges of the inks that it lies under; null without a base. */
function choke(preview: FacePreview, face: FaceJob): Mask | null {
  const base = face.inks.findIndex((ink) => ink.role === 'base');
  const covered = preview.prints.filter((_, i) => onBase(face.inks[i]!));
  if (base < 0 || covered.length === 0) return null;
  const all = blankMask(covered[0]!.width, covered[0]!.height);
  for (const mask of covered) union(all, mask, all);
  return subtract(all, preview.prints[base]!, all);
}

/**
 * Pictures of every spread and of the choke; or, for a pair, of how far the one runs under the other alone, with the places
 * where most of it lies.
 */
export async function drawTraps(
  preview: FacePreview,
  face: FaceJob,
  hexOf: (ink: number) => string,
  pair: InkPair | null,
): Promise<{ readonly spreads: Spread[]; readonly places: { s: number; t: number }[] }> {
  const { box, dpi, separations } = preview;
  const spreads: Spread[] = [];
  const hatch = async (mask: Mask, kind: Spread['kind'], hex: string) => {
    spreads.push({ hex, kind, picture: await createImageBitmap(maskPicture(mask)) });
  };
  const rule = rulesOf(face).find(
    (r) => face.inks[r.spreads]!.id === pair?.spreads && face.inks[r.under]!.id === pair.under,
  );
  if (rule) {
    const own = separations[rule.spreads]!;
    const spread = beyond(trapInk(separations, rule.spreads, [rule], dpi, null), own);
    await hatch(spread, rule.spreads, hexOf(rule.spreads));
    return { spreads, places: densest(spread, box) };
  }
  for (const [i, print] of preview.prints.entries())
    if (face.inks[i]?.role === 'colour') await hatch(beyond(print, separations[i]!), i, hexOf(i));
  const drawnIn = choke(preview, face);
  const base = face.inks.findIndex((ink) => ink.role === 'base');
  if (drawnIn) await hatch(drawnIn, 'choke', hexOf(base));
  return { spreads, places: [] };
}
