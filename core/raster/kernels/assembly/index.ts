export { growRows, withoutRows } from './grow';
export { prepareSource, warpTile } from './warp';
export { thresholdRows } from './threshold';
export { diffuseRow } from './diffuse';
export { screenRows } from './enlarge';
export { downsampleRows } from './downsample';
export { prepareWinners } from './winners';
export { distanceRows } from './distance';
export { tableShares } from './colourTable';
