import { LINEAR_OF_BYTE, parseHex } from '../colour/index.ts';
import { type Picture, type SparseCoverage, spreadPlanes } from '../raster/index.ts';
import { withChanges } from './changedShares.ts';
import { codesOf, wordsOf } from './codes.ts';
import { coresOf, SURE } from './cores.ts';
import type { Coverage } from './coverage.ts';
import { addDoubtfulCores } from './doubtful.ts';
import { type DrawnArt, separateDrawn } from './drawnArt.ts';
import { DRAWN_ART, GRAINY_ART, newEdgeSolver } from './edge.ts';
import { isGrainy } from './grain.ts';
import { hairlineSides } from './hairlineSides.ts';
import { FAR, type Labels, labelsOf, type SeparatePalette } from './labels.ts';
import { meetingsOf, settledMeetings } from './meetings.ts';
import { findThinCores, solveSoftPoints } from './softPoints.ts';
import { withoutStirredCores } from './stirred.ts';
import { tallyColour, type UnplannedTally } from './unplanned.ts';
import { Workspace } from './workspace.ts';

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
  /**
   * Whether the art has so few points on the deck that lines may be thinner than one: their sides and the points where inks meet are
   * then looked at more closely. Left out: no.
   */
  readonly coarse?: boolean | undefined;
  /** Collects flat colours that no ink is near. */
  readonly unplanned?: UnplannedTally | undefined;
}

/**
 * Points of context a window needs on each side of the part it is wanted for: then tiles equal the whole. Labels are looked for in
 * rings of 5 points, twice, about the neighbours of a core.
 */
export const SEPARATE_MARGIN_PX = 40;
/** The same for grainy art, where small groups of cores reach farthest (32), and two more rings say what they and doubtful cores are. */
export const GRAINY_MARGIN_PX = 56;

/**
 * Separates a picture, or a window of one, into coverage: plane 0 is bare, plane i + 1 ink i; they sum to 255 everywhere.
 * Pure points are found first; every other point is solved as a mix of the pure labels around it.
 */
export function separateWindow(
  picture: Picture,
  palette: SeparatePalette,
  options: SeparateOptions = {},
): Coverage {
  const { width, height } = picture;
  return {
    width,
    height,
    planes: spreadPlanes(separateSparse(picture, palette, options)),
  };
}

/** `separateWindow`, told shorter. With a `space` of one's own the answer lies in it, until it is used again. */
export function separateSparse(
  picture: Picture,
  palette: SeparatePalette,
  options: SeparateOptions = {},
  space: Workspace = new Workspace(),
): SparseCoverage {
  const { width, height } = picture;
  const labels = labelsOf(palette);
  const words = wordsOf(picture);
  const curve = options.blend === 'linear' ? LINEAR : null;
  const grainy = options.grainy ?? isGrainy(picture);
  const planeCount = palette.inks.length + 1;
  const { unplanned, coarse = false } = options;
  const drawn = grainy
    ? null
    : separateDrawn(words, width, height, labels, curve, planeCount, unplanned, coarse, space);
  const { soft, ...solved } =
    drawn ?? separateByStages(picture, words, labels, curve, planeCount, grainy, unplanned, space);
  const coverage = { width, height, planeCount, ...solved };
  // Compression stirs points as much as what is looked for there.
  if (grainy || !coarse) return coverage;
  let whole = withChanges(coverage, hairlineSides(picture, coverage, labels, soft));
  const bare = palette.ground === null ? [0, 0, 0, 0] : [...parseHex(palette.ground), 255];
  // Each time they are solved from what the last made of those about them.
  const meetings = meetingsOf(whole, soft);
  for (let round = 0; round < ROUNDS && meetings.length > 0; round++)
    whole = withChanges(whole, settledMeetings(picture, whole, meetings, bare));
  return whole;
}

/** The readable definition of `separateDrawn`; and of grainy art, what it has instead. */
export function separateByStages(
  picture: Picture,
  words: Int32Array,
  labels: Labels,
  curve: Float64Array | null,
  planeCount: number,
  grainy: boolean,
  unplanned: UnplannedTally | undefined,
  space: Workspace,
): DrawnArt {
  const { width, height, data } = picture;
  const codes = codesOf(words, labels, space);
  const sure = coresOf(words, codes, width, height, space);
  const exactness = grainy ? GRAINY_ART : DRAWN_ART;
  const first = newEdgeSolver(picture, words, codes, sure.cores, labels, curve, exactness);
  let { soft } = sure;
  if (grainy) {
    addDoubtfulCores(first, soft, labels.colour);
    first.cores = withoutStirredCores(first);
    soft = softPoints(first.cores);
  }
  const cores = findThinCores(first, soft, space);
  const solver = newEdgeSolver(picture, words, codes, cores, labels, curve, exactness);
  const winners = space.bytes('winners', width * height);
  if (unplanned) tallyUnplanned(unplanned, codes, cores, data);
  return {
    winners,
    ...solveSoftPoints(solver, soft, planeCount, winners, space),
    soft,
  };
}

/** Rounds in which points where three inks meet settle; later ones change next to nothing. */
const ROUNDS = 3;

/** Places without a sure core. */
function softPoints(cores: Uint8Array): Int32Array {
  let count = 0;
  for (let i = 0; i < cores.length; i++) if ((cores[i]! & SURE) === 0) count++;
  const soft = new Int32Array(count);
  for (let i = 0, k = 0; i < cores.length; i++) if ((cores[i]! & SURE) === 0) soft[k++] = i;
  return soft;
}

/** Counts the points that are sure of an ink though it is far from their colour. */
function tallyUnplanned(
  tally: UnplannedTally,
  codes: Uint8Array,
  cores: Uint8Array,
  data: Uint8Array | Uint8ClampedArray,
): void {
  tally.seen += codes.length;
  const see = (i: number) => {
    if (codes[i]! & FAR && cores[i]! & SURE && data[i * 4 + 3]! >= 128)
      tallyColour(tally, data[i * 4]!, data[i * 4 + 1]!, data[i * 4 + 2]!);
  };
  const fours = fourAtATime(codes);
  const any = FAR * 0x01010101;
  for (let k = 0; k < fours.length; k++)
    if ((fours[k]! & any) !== 0) for (let i = 4 * k; i < 4 * k + 4; i++) see(i);
  for (let i = 4 * fours.length; i < codes.length; i++) see(i);
}

/** The bytes as words of four, but for up to three at the end. */
const fourAtATime = (bytes: Uint8Array): Int32Array =>
  new Int32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2);

/** Light for each byte, on the scale of the encoded values. */
const LINEAR = Float64Array.from(LINEAR_OF_BYTE, (v) => v * 255);
