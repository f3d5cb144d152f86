import { LINEAR_OF_BYTE } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import { codesOf, wordsOf } from './codes.ts';
import { coresOf } from './cores.ts';
import type { Coverage } from './coverage.ts';
import { DRAWN_ART, GRAINY_ART, newEdgeSolver, solveEdge, withThinCores } from './edge.ts';
import { isGrainy } from './grain.ts';
import { FAR, LABEL, labelsOf, type SeparatePalette } from './labels.ts';
import { withoutStirredCores } from './stirred.ts';
import { tallyColour, type UnplannedTally } from './unplanned.ts';

export interface SeparateOptions {
  /**
   * How the art's soft edges were mixed. `encoded` (the default): in encoded sRGB values, as drawing programs and SVG renderers
   * do; `linear`: in light, as a camera does. See tests/reference/separationEdges for what the wrong one costs.
   */
  readonly blend?: 'encoded' | 'linear' | undefined;
  /**
   * Whether the art has been through lossy compression or a camera; left out, the window itself tells (`isGrainy`). Give it when tiles
   * of one picture must equal the whole.
   */
  readonly grainy?: boolean | undefined;
  /** Collects flat colours that no ink is near. */
  readonly unplanned?: UnplannedTally | undefined;
}

/**
 * Points of context a window needs on each side of the part it is wanted for: then tiles equal the whole. Small groups of cores reach
 * farthest (24), then the rings in which labels are looked for (twice 5) and the neighbours of a core.
 */
export const SEPARATE_MARGIN_PX = 40;

/**
 * Separates a picture, or a window of one, into coverage: plane 0 is bare, plane i + 1 ink i; they sum to 255 everywhere.
 * Pure points are found first; every other point is solved as a mix of the pure labels around it.
 */
export function separateWindow(
  picture: Picture,
  palette: SeparatePalette,
  options: SeparateOptions = {},
): Coverage {
  const { width, height, data } = picture;
  const labels = labelsOf(palette);
  const words = wordsOf(picture);
  const codes = codesOf(picture, words, labels);
  const curve = options.blend === 'linear' ? LINEAR : null;
  const sure = coresOf(codes, words, data, width, height);
  const grainy = options.grainy ?? isGrainy(picture);
  const exactness = grainy ? GRAINY_ART : DRAWN_ART;
  const first = newEdgeSolver(picture, codes, sure, labels, curve, exactness);
  if (grainy) first.cores = withoutStirredCores(first);
  const cores = withThinCores(first);
  const planes = Array.from({ length: palette.inks.length + 1 }, () => new Uint8Array(width * height));
  const planeOf = Array.from(labels.plane, (p) => planes[p]!);
  const solver = newEdgeSolver(picture, codes, cores, labels, curve, exactness);
  const tally = options.unplanned;
  if (tally) tally.seen += width * height;
  let i = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const core = cores[i]!;
      if (core & 0x80) {
        planeOf[core & LABEL]![i] = 255;
        if (tally && codes[i]! & FAR && data[i * 4 + 3]! >= 128)
          tallyColour(tally, data[i * 4]!, data[i * 4 + 1]!, data[i * 4 + 2]!);
        continue;
      }
      solveEdge(solver, x, y);
      const { parts, partLabel, share } = solver.mixer;
      // The shares as bytes; what rounding leaves over goes to the first, so that the sum stays 255.
      let left = 255;
      for (let p = 1; p < parts; p++) {
        const byte = Math.round(share[p]! * 255);
        planeOf[partLabel[p]!]![i]! += byte;
        left -= byte;
      }
      planeOf[partLabel[0]!]![i]! += left;
    }
  return { width, height, planes };
}

/** Light for each byte, on the scale of the encoded values. */
const LINEAR = Float64Array.from(LINEAR_OF_BYTE, (v) => v * 255);
