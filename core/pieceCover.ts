import { isCoarse } from './coarseArt.ts';
import { palettePartsOf } from './handInks.ts';
import type { InkMemory, Made } from './inkMemory.ts';
import type { Art, FaceJob } from './job/index.ts';
import type { Picture, SparseCoverage } from './raster/index.ts';
import { isGrainy, placeEdges, separateSparse } from './separate/index.ts';

/** The coverage of a whole picture, edges in place, and the inks and colours it was separated for, in the order of its planes. */
interface Cover {
  readonly coverage: SparseCoverage;
  readonly ids: readonly string[];
  readonly takes: readonly string[];
  /** What else it was made from. */
  readonly from: string;
}

const numbers = new WeakMap<Picture, number>();
let pictures = 0;

/** A number for each picture object, 0 for none: the same art may be held at several sizes. */
export function pictureNumber(picture: Picture | undefined): number {
  if (!picture) return 0;
  let known = numbers.get(picture);
  if (known === undefined) {
    known = ++pictures;
    numbers.set(picture, known);
  }
  return known;
}

/** The planes of a coverage in another order: `order` names the wanted inks by their place in it. */
function ordered(coverage: SparseCoverage, order: readonly number[]): SparseCoverage {
  const { planeCount, winners, shared, shares } = coverage;
  const from = [0, ...order.map((at) => at + 1)];
  const planeNow = new Uint8Array(planeCount);
  from.forEach((before, now) => {
    planeNow[before] = now;
  });
  const turned = new Uint8Array(shares.length);
  for (let at = 0; at < shares.length; at += planeCount)
    for (let p = 0; p < planeCount; p++) turned[at + p] = shares[at + from[p]!]!;
  const leading = winners.map((plane) => planeNow[plane]!);
  // Of equal shares the lowest plane leads, which may be another now.
  for (let k = 0; k < shared.length; k++) {
    const at = k * planeCount;
    let best = 0;
    for (let p = 1; p < planeCount; p++) if (turned[at + p]! > turned[at + best]!) best = p;
    leading[shared[k]!] = best;
  }
  return { ...coverage, winners: leading, shares: turned };
}

/**
 * The coverage of a piece's whole picture, separated only when its inks' colours have changed: where the piece lies and in
 * which order inks are pulled do not matter. With `loose`, a coverage made for the same inks in other colours serves too: the
 * same shapes, true within what the new colours attract in the art.
 */
export function pieceCover(
  memory: InkMemory,
  piece: Art,
  picture: Picture,
  face: FaceJob,
  loose: boolean,
): Made<SparseCoverage> {
  const slot = `cover ${piece.id}`;
  const palette = { ...palettePartsOf(face), ground: piece.ground };
  const ids = face.inks.map(({ id }) => id);
  const takes = palette.inks.map(({ hex }) => hex.toLowerCase());
  const from = JSON.stringify([pictureNumber(picture), piece.ground, face.handColours, isCoarse(piece)]);
  const known = memory.last<Cover>(slot);
  const old = known?.value.from === from && known.value.ids.length === ids.length ? known.value : null;
  // The same colour twice goes to the earlier ink: then order matters.
  const reuse =
    old && new Set(takes).size === takes.length
      ? (placesOf(old.takes, takes) ?? (loose ? placesOf(old.ids, ids) : null))
      : null;
  if (known && old && reuse?.every((at, i) => at === i)) return { value: old.coverage, turn: known.turn };
  if (known && old && reuse)
    return memory.keep(`${slot} ordered`, JSON.stringify([known.turn, reuse]), () =>
      ordered(old.coverage, reuse),
    );
  const made = memory.keep<Cover>(slot, JSON.stringify([from, ids, takes]), () => {
    const grainy = piece.mediaType !== 'image/svg+xml' && isGrainy(picture);
    const coarse = isCoarse(piece);
    const coverage = placeEdges(separateSparse(picture, palette, { grainy, coarse }), coarse);
    return { coverage, ids, takes, from };
  });
  return { value: made.value.coverage, turn: made.turn };
}

/** Where each of `wanted` stands in `had`; null where one is missing or `had` has another number of them. */
export function placesOf(had: readonly string[], wanted: readonly string[]): number[] | null {
  const order = wanted.map((one) => had.indexOf(one));
  return had.length === wanted.length && order.every((at) => at >= 0) ? order : null;
}
