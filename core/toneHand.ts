import { hexOfLinear } from './colour/index.ts';
import { palettePartsOf } from './handInks.ts';
import type { FaceJob } from './job/index.ts';
import { type HandTones, NO_REGIONS } from './separate/index.ts';
import type { TileInput } from './separateTile.ts';
import type { TonePlan } from './tonePlan.ts';

/**
 * The colours of a toned face as a hand has changed them, in the plan's own; left out where nothing was. Layers are their inks'
 * already, and no hand changes them.
 */
export function toneColours(
  plan: TonePlan,
  face: FaceJob,
): Pick<HandTones, 'recolour' | 'planes'> | undefined {
  const { inks, also = [] } = palettePartsOf(face);
  const drawn = face.art.some((piece) => (piece.regions?.length ?? 0) > 0);
  if (face.method === 'layered' || (also.length === 0 && !drawn)) return undefined;
  const bare = hexOfLinear(plan.palette.bare);
  const solid = (ink: number): string | null => {
    if (plan.beds.includes(ink)) return bare;
    const line = plan.lines.find((l) => l.ink === ink);
    const colour = plan.palette.inks[plan.inks.indexOf(ink)];
    return line?.hex ?? (colour ? hexOfLinear(colour) : null);
  };
  return {
    recolour: also.map(({ hex, ink }) => ({ hex, as: ink === null ? null : solid(ink) })),
    planes: [null, ...inks.map((_, i) => solid(i))],
  };
}

/** All that a hand has changed on one tile of shaded art. */
export function toneHand(
  plan: TonePlan,
  face: FaceJob,
  { regions }: Pick<TileInput, 'regions'>,
): HandTones | undefined {
  const colours = toneColours(plan, face);
  return colours && { ...colours, regions: regions ?? NO_REGIONS };
}
