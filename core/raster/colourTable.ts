/** One side of a table: its nodes, in encoded levels; for each byte the node below it and the 256ths to the next. */
export interface ColourAxis {
  readonly levels: readonly number[];
  readonly below: Int32Array;
  readonly beyond: Int32Array;
}

/** Steps of a level (255ths) in a table. */
export const TABLE_STEPS = 128;

/**
 * Shares for every colour: at each node, red slowest and blue fastest, `planes` shares in 128ths of a 255th. They are in sum 255 but
 * for rounding.
 */
export interface ColourTable {
  readonly planes: number;
  readonly axes: readonly [ColourAxis, ColourAxis, ColourAxis];
  readonly shares: Uint16Array;
}

/** The axis with these nodes: levels, ascending from 0 to 255. */
export function colourAxis(levels: readonly number[]): ColourAxis {
  const below = new Int32Array(256);
  const beyond = new Int32Array(256);
  for (let v = 0, node = 0; v < 256; v++) {
    while (node < levels.length - 2 && levels[node + 1]! <= v) node++;
    below[v] = node;
    beyond[v] = Math.round((256 * (v - levels[node]!)) / (levels[node + 1]! - levels[node]!));
  }
  return { levels, below, beyond };
}
