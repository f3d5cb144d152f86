export { artPxPerMm, cropOf, cropToBox, partOf, wholeSize, withCrop } from './artPart.ts';
export { canonicalJson, type JobFile, packJob, unpackJob } from './container.ts';
export { DEFAULT_MESH, DEFAULT_PRESS, DEFAULT_PRINTER, idFrom, inkFrom, newJob } from './defaults.ts';
export { FILM_MEDIUMS, type FilmMedium } from './filmMedia.ts';
export { assignColour, mergeInks, withoutInk } from './handEdits.ts';
export { type ArtFacts, type Fit, fitBox, fitted, placeArt } from './place.ts';
export {
  type EarlierRun,
  type LogEntry,
  type Lot,
  OwnMeshSchema,
  PRESS_RECORDS,
} from './pressRecords.ts';
export { readJob, upgrades } from './read.ts';
export {
  type Art,
  ArtSchema,
  type Colourway,
  type Crop,
  DITHERS,
  DOT_SHAPES,
  type DotGain,
  type FaceJob,
  FILM_MEDIA,
  type Halftone,
  type HandColour,
  type HandRegion,
  INK_KINDS,
  type IndexDots,
  type Ink,
  InkSchema,
  JOB_VERSION,
  type Job,
  JobSchema,
  LAYER_TAKES,
  type Layer,
  type Press,
  PressSchema,
  type Printer,
  PrinterSchema,
  type TextData,
  type Traps,
  type Veneer,
  VeneerSchema,
} from './schema.ts';
export { inkTaken, type TakenInk, takeInks } from './takeInks.ts';
export {
  DEFAULT_HALFTONE,
  DEFAULT_INDEX,
  isToned,
  LEAST_CELL,
  lineInks,
  screenAngle,
  screenedInks,
  screensDots,
} from './tones.ts';
export { hashOf, plainUnpacking, type Unpacking } from './unpacking.ts';
