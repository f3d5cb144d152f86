import { type Mask, thumbnail } from '../raster/index.ts';
import type { FilmLayout, Seam } from './faceLayout.ts';
import { type Stencil, stencilOf } from './stencil.ts';
import { turnLeft } from './turn.ts';
import { filmBox, seamStrip } from './window.ts';

/** Points a millimetre of film keeps in a guide's picture of it, and in that of a joint: a page of plain paper shows no more. */
const WHOLE_PX_PER_MM = 4;
const JOINT_PX_PER_MM = 6;

const factorOf = (dpi: number, pxPerMm: number): number => Math.max(1, Math.floor(dpi / (25.4 * pxPerMm)));
/** How many times smaller than the film its picture is, a side. */
export const wholeFactor = (dpi: number): number => factorOf(dpi, WHOLE_PX_PER_MM);
/** How many times smaller than the film a joint's picture is, a side. */
export const jointFactor = (dpi: number): number => factorOf(dpi, JOINT_PX_PER_MM);

/** What the guide to a film shows of its ink. */
export interface GuidePictures {
  readonly whole: Stencil;
  /** By `jointsOf`. */
  readonly joints: readonly Stencil[];
}

/** Every seam of a film once, with the sheet `a` that it joins to its neighbour. */
export function jointsOf(film: FilmLayout): { readonly a: number; readonly seam: Seam }[] {
  return film.sheets.flatMap((sheet) =>
    sheet.seams.filter((seam) => seam.with > sheet.index).map((seam) => ({ a: sheet.index, seam })),
  );
}

/**
 * The shared strip of a joint, `factor` times smaller and lying: its cut runs from left to right. Of a cut across the deck the left end
 * is the upper edge and the nose is up; a lengthwise one lies as the film does.
 */
export function seamPicture(film: FilmLayout, seam: Seam, factor: number): Mask {
  const strip = seamStrip(film, seam);
  if (seam.runs === 'along') return thumbnail(strip, factor);
  // Turned when it is small, so its squares are counted from the edge that becomes the upper one.
  const width = Math.ceil(strip.width / factor) * factor;
  return turnLeft(
    thumbnail(strip, factor, {
      x: strip.width - width,
      y: 0,
      width,
      height: strip.height,
    }),
  );
}

/** The pictures of one film, packed. `deflate` is zlib-wrapped. */
export function guidePictures(
  film: FilmLayout,
  dpi: number,
  deflate: (bytes: Uint8Array) => Uint8Array,
): GuidePictures {
  const whole = thumbnail(film.art.mask, wholeFactor(dpi), filmBox(film));
  const joints = jointsOf(film).map(({ seam }) => seamPicture(film, seam, jointFactor(dpi)));
  return {
    whole: stencilOf(whole, deflate),
    joints: joints.map((joint) => stencilOf(joint, deflate)),
  };
}
