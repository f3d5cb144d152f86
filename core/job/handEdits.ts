import type { Art, FaceJob, HandColour, HandRegion, Ink } from './schema.ts';

/** The face with a colour of its art given to an ink; null: bare wood. What was said of this colour before is forgotten. */
export function assignColour(face: FaceJob, hex: string, ink: string | null): FaceJob {
  const others = (face.handColours ?? []).filter((c) => c.hex !== hex);
  return { ...face, handColours: [...others, { hex, ink }] };
}

const inRegions = (face: FaceJob, change: (region: HandRegion) => HandRegion | null): Art[] =>
  face.art.map((piece) => {
    if (!piece.regions) return piece;
    const regions = piece.regions.flatMap((region) => change(region) ?? []);
    return { ...piece, regions };
  });

/** The face without an ink, and without what was given to it by hand. */
export function withoutInk(face: FaceJob, id: string): FaceJob {
  const colours = face.handColours?.filter((c) => c.ink !== id);
  return {
    ...face,
    art: inRegions(face, (region) => (region.to === id || region.only === id ? null : region)).map((piece) =>
      piece.layer?.ink === id ? { ...piece, layer: { ...piece.layer, ink: null } } : piece,
    ),
    inks: face.inks.filter((ink) => ink.id !== id),
    ...(colours ? { handColours: colours } : {}),
    traps: {
      ...face.traps,
      pairs: face.traps.pairs.filter((p) => p.a !== id && p.b !== id),
    },
  };
}

/**
 * The face with ink `from` merged into ink `into`: what `from` printed, by its colour or by hand, prints in `into`. Its screen is
 * saved. The same face where one of them is not there.
 */
export function mergeInks(face: FaceJob, from: string, into: string): FaceJob {
  const gone = face.inks.find((ink) => ink.id === from);
  if (!gone || from === into || !face.inks.some((ink) => ink.id === into)) return face;
  const colourOf = (ink: Ink) => ink.matches ?? ink.hex;
  const said = (face.handColours ?? []).map((c): HandColour => (c.ink === from ? { ...c, ink: into } : c));
  // What was said of this very colour stays said.
  const own = said.some((c) => c.hex === colourOf(gone)) ? [] : [{ hex: colourOf(gone), ink: into }];
  const art = inRegions(face, (region) => {
    const to = region.to === from ? into : region.to;
    const only = region.only === from ? into : region.only;
    return to !== null && to === only ? null : { ...region, to, only };
  }).map((piece) => (piece.layer?.ink === from ? { ...piece, layer: { ...piece.layer, ink: into } } : piece));
  return {
    ...withoutInk({ ...face, art }, from),
    art,
    handColours: [...said, ...own],
  };
}
