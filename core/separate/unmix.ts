import { byteOfLinear, type LinearRgb, srgbToLinear } from '../colour/index.ts';
import {
  type ColourAxis,
  type ColourTable,
  colourAxis,
  type Picture,
  sharesByTable,
  TABLE_STEPS,
} from '../raster/index.ts';
import type { Coverage } from './coverage.ts';
import { mixer } from './nearestMixture.ts';

/** Colours as light: bare ground (veneer or base) and each ink as it looks solid over it. */
export interface TonePalette {
  readonly bare: LinearRgb;
  readonly inks: readonly LinearRgb[];
}

/** Even nodes along each axis; encoded levels between two are 8, where light is nearly a straight line. */
const EVEN_NODES = 33;

/**
 * Shares of bare and of each ink for every colour: nodes at even steps of encoded sRGB and, so that inks come out pure, at
 * the palette's own colours; red slowest, blue fastest; `planes` shares a node (bare first), in 128ths of a 255th.
 */
export type UnmixTable = ColourTable;

function axisOf(colours: readonly LinearRgb[], channel: 0 | 1 | 2): ColourAxis {
  const at = new Set(Array.from({ length: EVEN_NODES }, (_, i) => (i * 255) / (EVEN_NODES - 1)));
  for (const colour of colours) at.add(byteOfLinear(colour[channel]));
  return colourAxis([...at].sort((a, b) => a - b));
}

/** The table of a palette: at each node the mixture in linear light that is its colour, or looks nearest; shares at least 0, in sum 1. */
export function unmixTable({ bare, inks }: TonePalette): UnmixTable {
  const colours = [bare, ...inks];
  const planes = colours.length;
  const axes = [axisOf(colours, 0), axisOf(colours, 1), axisOf(colours, 2)] as const;
  const [reds, greens, blues] = axes.map(({ levels }) => levels.map((v) => srgbToLinear(v / 255))) as [
    number[],
    number[],
    number[],
  ];
  const solver = mixer(colours);
  const shares = new Uint16Array(reds.length * greens.length * blues.length * planes);
  const one = new Float64Array(planes);
  for (let r = 0; r < reds.length; r++)
    for (let g = 0; g < greens.length; g++)
      for (let k = 0; k < blues.length; k++) {
        // There and back, so that the solver's next colour is always a neighbour of its last.
        const b = g & 1 ? blues.length - 1 - k : k;
        solver.solveSeen(reds[r]!, greens[g]!, blues[b]!, one);
        const at = ((r * greens.length + g) * blues.length + b) * planes;
        for (let p = 0; p < planes; p++) shares[at + p] = Math.round(one[p]! * 255 * TABLE_STEPS);
      }
  return { planes, axes, shares };
}

/**
 * Coverages of a picture, point by point (see `sharesByTable`). Transparent points are bare by as much as they are transparent;
 * the planes sum to 255 at every point.
 */
export const unmixPicture = (picture: Picture, table: UnmixTable): Coverage => ({
  width: picture.width,
  height: picture.height,
  planes: sharesByTable(picture, table),
});
