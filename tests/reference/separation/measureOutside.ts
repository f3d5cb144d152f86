import { toHex } from '../../../core/colour/index.ts';
import {
  blankMask,
  dropSpecks,
  inkCount,
  type Mask,
  type Picture,
  setBit,
  shrink,
  subtract,
} from '../../../core/raster/index.ts';
import { suggestInks } from '../../../core/separate/index.ts';
import { filmsOf, type Measured, measure, render, throughJpeg, truthOf } from './measure.ts';

/** Film points: a dot of 0.3 mm at 600 dpi; smaller specks are dropped from every film. */
export const SPECK = 40;
/** Film points from the edge: what lies deeper is the middle of a line of 5 points (0.21 mm) or of something wider. */
const MIDDLE = 2;
/** Paper for JPEG, which knows no transparency: white, or the second where a piece has a white ink. */
const PAPERS = ['#ffffff', '#cfe8ff'] as const;
export const QUALITIES = [75, 60] as const;

/** Drawings to measure: `svg` gives one `px` points a side, `hard` without antialiasing. */
export interface Drawn {
  readonly name: string;
  svg(px: number, hard: boolean): string;
}

/** What the films must keep to: edges in film points, false ink of JPEG at quality 75 as a share of the area. */
export const TARGET = { displacement: 0.35, jpeg75: 0.0001 } as const;

export interface OutsideMeasured {
  readonly name: string;
  readonly px: number;
  readonly inks: number;
  /** Whether the program, asked for no number, suggests just these inks. */
  readonly suggested: boolean;
  readonly soft: Measured;
  /** Points in the middle of lines and shapes of the truth that their film lacks: 0 when no line is broken. */
  readonly broken: number;
  /** The same art through JPEG, a quality of those asked for each. */
  readonly jpeg: readonly Measured[];
}

/** The colours of a picture without soft edges, the commonest first; throws where a point is half transparent. */
export function coloursOf({ data }: Picture): string[] {
  const counts = new Map<number, number>();
  for (let i = 0; i < data.length; i += 4) {
    if (data[i + 3] === 0) continue;
    if (data[i + 3] !== 255) throw new Error('The truth has a half transparent point.');
    const key = (data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([key]) => toHex([key >> 16, (key >> 8) & 255, key & 255]));
}

/** Points of the truth's middles that the films lack. */
function brokenPoints(films: readonly Mask[], truth: Uint8Array, width: number, height: number): number {
  return films.reduce((sum, film, k) => {
    const real = blankMask(width, height);
    for (let i = 0; i < truth.length; i++)
      if (truth[i] === k + 1) setBit(real, i % width, Math.floor(i / width));
    return sum + inkCount(subtract(shrink(real, MIDDLE), film));
  }, 0);
}

/**
 * The piece rendered soft, `px` points a side at 300 dpi, and separated to 600 dpi, against itself rendered hard at 600 dpi. JPEG
 * takes most of the time: `qualities` says through which.
 */
export async function measureOutside(
  piece: Drawn,
  px: number,
  qualities: readonly number[] = QUALITIES,
): Promise<OutsideMeasured> {
  const soft = await render(piece.svg(px, false));
  const hard = await render(piece.svg(2 * px, true));
  const { width, height } = hard;
  const inks = coloursOf(hard);
  const truth = truthOf(hard, inks);
  const films = filmsOf(soft, inks, null, 2);
  const found = suggestInks(soft, null).map(({ hex }) => hex);
  const paper = PAPERS.find((colour) => !inks.includes(colour))!;
  const jpeg: Measured[] = [];
  for (const quality of qualities) {
    const stirred = await throughJpeg(soft, quality, paper);
    const kept = filmsOf(stirred, inks, paper, 2).map((film) => dropSpecks(film, SPECK).mask);
    jpeg.push(measure(kept, truth, width, height));
  }
  return {
    name: piece.name,
    px,
    inks: inks.length,
    suggested: found.length === inks.length && inks.every((hex) => found.includes(hex)),
    soft: measure(films, truth, width, height),
    broken: brokenPoints(films, truth, width, height),
    jpeg,
  };
}

/** Means over pieces: edges off in film points, false ink through JPEG as shares of the area. */
export function outsideMeans(rows: readonly OutsideMeasured[]): { displacement: number; jpeg: number[] } {
  const mean = (of: (row: OutsideMeasured) => number) =>
    rows.reduce((sum, row) => sum + of(row), 0) / rows.length;
  return {
    displacement: mean((row) => row.soft.displacement),
    jpeg: QUALITIES.map((_, q) => mean((row) => row.jpeg[q]!.falseShare)),
  };
}

/** A piece by its set, name and licence. */
export const nameOf = ({ set, name, licence }: { set: string; name: string; licence: string }): string =>
  `${set}, ${name} (${licence})`;

/** The measures as rows of a table in Markdown, with their heading. */
export function outsideTable(
  rows: readonly OutsideMeasured[],
  qualities: readonly number[] = QUALITIES,
): string {
  const percent = (m: Measured) => (100 * m.falseShare).toFixed(4);
  const row = (...cells: readonly (string | number)[]) => `| ${cells.join(' | ')} |`;
  const lines = rows.map(({ name, px, inks, suggested, soft, broken, jpeg }) =>
    row(
      name,
      px,
      inks,
      suggested ? 'yes' : 'no',
      soft.falseInk,
      soft.displacement.toFixed(3),
      broken,
      ...jpeg.map(percent),
    ),
  );
  const jpegs = qualities.map((q) => `JPEG ${q}, false %`);
  return [
    row(
      'piece (licence)',
      'points a side',
      'inks',
      'suggested so',
      'false ink',
      'edges off',
      'broken',
      ...jpegs,
    ),
    row('---', '---:', '---:', '---', '---:', '---:', '---:', ...jpegs.map(() => '---:')),
    ...lines,
  ].join('\n');
}
