/** The text of blueNoise.generated.ts for a tile's ranks. */
export function blueNoiseFile(ranks: Uint32Array): string;
