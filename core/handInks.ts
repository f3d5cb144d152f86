import type { Art, FaceJob } from './job/index.ts';
import type { HandRegion, SeparatePalette } from './separate/index.ts';

/** What a separation needs to know of a face's inks, whatever else was said by hand. Inks by their place in the pull order. */
export function palettePartsOf(face: FaceJob): Pick<SeparatePalette, 'inks' | 'also'> {
  const inks = face.inks.map(({ hex, matches }) => ({ hex: matches ?? hex }));
  const also = (face.handColours ?? []).flatMap(({ hex, ink }) => {
    const at = face.inks.findIndex((i) => i.id === ink);
    // A colour of an ink that is gone is anyone's again.
    return ink !== null && at < 0 ? [] : [{ hex, ink: ink === null ? null : at }];
  });
  return { inks, also };
}

/** The regions drawn by hand on a piece, their inks as planes of a separation; those of inks that are gone are left out. */
export function regionsOf(face: FaceJob, piece: Art): HandRegion[] {
  const planeOf = (id: string | null) => (id === null ? 0 : face.inks.findIndex((ink) => ink.id === id) + 1);
  return (piece.regions ?? []).flatMap(({ shape, to, only, bareStays }) => {
    const target = planeOf(to);
    const source = only === null ? null : planeOf(only);
    if ((to !== null && target === 0) || source === 0) return [];
    return [{ shape, to: target, only: source, bareStays }];
  });
}

/** Inks, by place, whose specks are never dropped. */
export const keptInks = (face: FaceJob): boolean[] => face.inks.map((ink) => ink.kept === true);
