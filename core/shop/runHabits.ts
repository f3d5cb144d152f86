import * as z from 'zod';
import { PRESS_RECORDS } from '../job/index.ts';

/** What a run is planned with in this shop: resources, hours, the user's own times, what is lost. */
export const HABITS = [
  'waste',
  'dryingPlaces',
  'exposureUnits',
  'people',
  'rack',
  'clearCoats',
  'hours',
  'times',
  'spoilPerPull',
  'deckPrice',
  'sheetPrice',
  'plies',
  'hinge',
  'bolts',
  'sideMargin',
  'inkWell',
] as const;

const { waste, dryingPlaces, exposureUnits, people, rack, clearCoats } = PRESS_RECORDS;
const { hours, times, spoilPerPull, deckPrice, sheetPrice, plies, hinge, bolts, sideMargin, inkWell } =
  PRESS_RECORDS;
/** The same figures as in a job, with the same bounds. */
export const RunHabitsSchema = z.looseObject({
  waste,
  dryingPlaces,
  exposureUnits,
  people,
  rack,
  clearCoats,
  hours,
  times,
  spoilPerPull,
  deckPrice,
  sheetPrice,
  plies,
  hinge,
  bolts,
  sideMargin,
  inkWell,
});
