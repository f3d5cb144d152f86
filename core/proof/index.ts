export { composePulls, type ProofPull, type ProofRequest } from './composePulls.ts';
export { hidingOf } from './hidingOf.ts';
export { approximationOf, type InkLook, lookOf } from './inkLook.ts';
export {
  kOverS,
  type Layer,
  layerFromReadings,
  layerOf,
  layerOver,
  reflectanceOfKOverS,
} from './kubelkaMunk.ts';
export { shiftPlane } from './shiftPlane.ts';
