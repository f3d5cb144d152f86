export { growRows } from './grow';
export { prepareSource, warpTile } from './warp';
export { thresholdRows } from './threshold';
export { diffuseRow } from './diffuse';
