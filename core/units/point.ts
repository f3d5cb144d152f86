import type { Mm } from './length.ts';

/**
 * Points are named by their space, and each space has its own coordinate names, so that the compiler keeps them apart.
 * Every space belongs to one face of the deck and is drawn as that face is seen: nose to the right.
 */

/** Plan: the face looked at straight down. Origin mid-wheelbase on the centreline, +x to the nose, +y up as seen. */
export type PlanPoint = { readonly x: Mm; readonly y: Mm };
/** Surface: lengths along the wood of the same face. s along the centreline to the nose, t across, +t up as seen. */
export type SurfacePoint = { readonly s: Mm; readonly t: Mm };
/** Film: the flattened surface corrected for mesh growth. u to the nose, v up as seen, same origin. */
export type FilmPoint = { readonly u: Mm; readonly v: Mm };
/** A point on the bent board: plan x and y as above, z towards the rider. */
export type SpacePoint = { readonly x: Mm; readonly y: Mm; readonly z: Mm };
/** A rectangle by its lower left corner, in a space that the name beside it states; +y up. */
export type Box = { readonly x: Mm; readonly y: Mm; readonly width: Mm; readonly height: Mm };
/** A closed polygon as flat x, y pairs, last point not repeated; the space is stated by the name beside it. */
export type Ring = readonly (readonly [number, number])[];
