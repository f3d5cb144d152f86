import { byteOfLinear, deltaE00, LINEAR_OF_BYTE, labOfLinear, linearOfHex } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import type { Coverage } from './coverage.ts';
import { reducePicture } from './reducePicture.ts';
import { separateWindow } from './separateWindow.ts';
import { unmixPicture, unmixTable } from './unmix.ts';

/** How near inks come to the art, over its inked points: ΔE00 (CIE 142:2001). */
export interface InkFit {
  readonly mean: number;
  /** 95 of 100 points are nearer than this. */
  readonly most: number;
  /** Share of the points, 0 to 1, that are more than 5 off: seen at a glance. */
  readonly off: number;
  /** The art in these inks, small; transparent where it is bare. */
  readonly proof: Picture;
}

export interface InkFitOptions {
  /** The art's paper, which needs no ink. */
  readonly ground?: string | null | undefined;
  /** The wood between the dots of shaded art, #rrggbb. */
  readonly bare: string;
  /** Shaded art in dots: colours mix. Else each point has one ink. */
  readonly toned: boolean;
}

/** Points along the longer side at which inks are tried: fine lines still show, and three tries take a moment. */
const SIDE = 560;
const OFF = 5;

/** The art made small for trying inks on it. */
export const smallArt = (picture: Picture): Picture =>
  reducePicture(picture, Math.max(1, Math.round(Math.max(picture.width, picture.height) / SIDE)));

/** How the art looks in these inks, each taken as solid, and how far off that is. `art` as from `smallArt`. */
export function inkFit(
  art: Picture,
  inks: readonly { readonly hex: string }[],
  options: InkFitOptions,
): InkFit {
  const ground = options.ground ?? null;
  const lights = [linearOfHex(ground ?? options.bare), ...inks.map(({ hex }) => linearOfHex(hex))];
  const { planes } = coverageOf(art, inks, options, ground);
  const data = new Uint8Array(art.data.length);
  const found: number[] = [];
  for (let i = 0, at = 0; at < art.data.length; i++, at += 4) {
    const light: [number, number, number] = [0, 0, 0];
    let inked = 0;
    planes.forEach((plane, p) => {
      const share = plane[i]! / 255;
      // Where the art is see-through, what is bare shows nothing.
      if (share === 0 || (p === 0 && art.data[at + 3]! < 255 && !options.toned)) return;
      inked += share;
      for (let c = 0; c < 3; c++) light[c]! += share * lights[p]![c]!;
    });
    if (inked > 0) {
      for (let c = 0; c < 3; c++) data[at + c] = byteOfLinear(light[c]! / inked);
      const bare = planes[0]![i]! === 255;
      data[at + 3] = bare ? 0 : Math.round(Math.min(1, inked) * 255);
    }
    if (art.data[at + 3]! < 128 || (ground !== null && planes[0]![i]! > 127)) continue;
    const seen = labOfLinear(inked > 0 ? [light[0] / inked, light[1] / inked, light[2] / inked] : lights[0]!);
    const meant = labOfLinear([
      LINEAR_OF_BYTE[art.data[at]!]!,
      LINEAR_OF_BYTE[art.data[at + 1]!]!,
      LINEAR_OF_BYTE[art.data[at + 2]!]!,
    ]);
    found.push(deltaE00(seen, meant));
  }
  const proof: Picture = { width: art.width, height: art.height, data };
  if (found.length === 0) return { mean: 0, most: 0, off: 0, proof };
  const sorted = Float64Array.from(found).sort();
  return {
    mean: found.reduce((sum, d) => sum + d, 0) / found.length,
    most: sorted[Math.min(found.length - 1, Math.floor(0.95 * found.length))]!,
    off: found.filter((d) => d > OFF).length / found.length,
    proof,
  };
}

function coverageOf(
  art: Picture,
  inks: readonly { readonly hex: string }[],
  { bare, toned }: InkFitOptions,
  ground: string | null,
): Coverage {
  if (!toned) return separateWindow(art, { inks, ground }, { blend: 'linear' });
  const palette = { bare: linearOfHex(bare), inks: inks.map(({ hex }) => linearOfHex(hex)) };
  return unmixPicture(art, unmixTable(palette));
}
