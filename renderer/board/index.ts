export { Board } from './Board.tsx';
export { boxOf, type FaceShape, faceShape } from './faceShape.ts';
