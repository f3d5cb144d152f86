import type { Mesh } from './mesh.ts';

/** A mesh that can be bought: count and thread, and who says that it is made. Figures follow by `meshFigures`. */
export interface MeshRow extends Mesh {
  readonly source: string;
}

const MEMORY = 'designation from memory; compare with the maker’s list';
const SOURCES = {
  A: 'a print company’s training page, “Explanation of Mesh Geometry”',
  B: 'art supply page on SEFAR PET 1500 43/110-80W PW',
  C: 'a page on reading mesh codes (55.64)',
  D: 'nt-jp.com, screen specifications',
  E: '“Mesh Matters”, Screen Printing magazine, June 2009',
  F: 'SEFAR, “Questions about half-tone printing”',
} as const;

/**
 * Common plain weave polyester, threads per cm and thread diameter in µm. Only the designations are data; opening,
 * open area, thickness and ink volume are worked out, and a maker's own figures replace them.
 */
const ROWS: readonly (readonly [number, number, string])[] = [
  [10, 260, SOURCES.A],
  [24, 140, SOURCES.A],
  [32, 100, MEMORY],
  [34, 100, SOURCES.A],
  [43, 80, SOURCES.B],
  [48, 70, MEMORY],
  [49, 55, SOURCES.A],
  [54, 64, MEMORY],
  [55, 64, SOURCES.C],
  [61, 64, MEMORY],
  [62, 64, SOURCES.A],
  [64, 64, MEMORY],
  [68, 64, MEMORY],
  [77, 48, MEMORY],
  [77, 55, MEMORY],
  [90, 40, SOURCES.D],
  [90, 48, `${SOURCES.A}; ${SOURCES.D}`],
  [90, 54, SOURCES.D],
  [100, 40, MEMORY],
  [110, 34, MEMORY],
  [120, 31, SOURCES.A],
  [120, 34, SOURCES.A],
  [120, 40, SOURCES.E],
  [140, 31, MEMORY],
  [140, 34, SOURCES.A],
  [150, 31, SOURCES.F],
  [165, 27, MEMORY],
  [165, 31, MEMORY],
  [180, 27, MEMORY],
];

export const MESH_TABLE: readonly MeshRow[] = ROWS.map(([countPerCm, threadUm, source]) => ({
  countPerCm,
  threadUm,
  source,
}));

/** The row of the table nearest to a count, the thinner thread first where several are sold. */
export function meshOfCount(countPerCm: number): MeshRow {
  const far = (row: MeshRow) => Math.abs(row.countPerCm - countPerCm);
  return MESH_TABLE.reduce((best, row) => (far(row) < far(best) ? row : best));
}
