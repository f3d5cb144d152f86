export { checkDeck } from './checkDeck.ts';
export { HOLE_CHOICES, type HoleChoice, type NoseTo, orderHoles } from './clickedHoles.ts';
export {
  acrossLength,
  acrossRiseAtPlan,
  arcCurvature,
  faceCurvature,
  flatHalf,
  outerCurvature,
} from './concave.ts';
export {
  type Deck,
  DeckSchema,
  FACES,
  type Face,
  type Kick,
  type Outline,
  type OutlineEnd,
  OutlineSchema,
} from './deck.ts';
export { type FilmMap, type Growth, makeFilmMap } from './filmMap.ts';
export { type Development, type Flattening, makeFlattening, USUAL_RAIL_MARGIN } from './flattening.ts';
export { importOutlineDxf } from './importOutlineDxf.ts';
export { importOutlineSvg } from './importOutlineSvg.ts';
export { type KickCurve, kickCurve, risePast, runPast, slopePast } from './kickCurve.ts';
export { deckLength, endLength, type LengthWay, straightEndLength } from './length.ts';
export { type Misfit, misfit } from './misfit.ts';
export { MISFIT_CONTOUR, misfitPicture } from './misfitPicture.ts';
export { outlineRing, ringArea } from './outline.ts';
export { deckWithOutline, type ImportOptions } from './outlineFromPieces.ts';
export { outlineOnSurface } from './outlineOnSurface.ts';
export type { Pixels } from './pictureLight.ts';
export { type PrintableOptions, printableRings } from './printableRings.ts';
export { snapHole } from './snapHole.ts';
export { type Squaring, squareOutline } from './squareOutline.ts';
export { makeSurface, type Surface, type SurfaceStation } from './surface.ts';
export { deckTemplate, TEMPLATES, type Template } from './templates/index.ts';
export { type TracedOptions, tracedDeck } from './tracedDeck.ts';
export { type Trace, type TraceOptions, traceOutline } from './traceOutline.ts';
export { holesOnSurface, truckHoles } from './truckHoles.ts';
