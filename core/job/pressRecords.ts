import * as z from 'zod';

const share = z.number().finite().min(0).max(20);
const minutes = z.number().finite().min(0).max(20_000);
const words = z.string().max(2000);
const count = (least: number, most: number) => z.number().int().min(least).max(most);
const place = z.number().finite().min(-5000).max(5000);

/** A mesh as its maker's sheet states it; the shop's own stock is a list of them. */
export const OwnMeshSchema = z.looseObject({
  countPerCm: z.number().finite().min(5).max(250),
  threadUm: z.number().finite().min(5).max(2000),
  openingUm: z.number().finite().min(1).max(2000).optional(),
  thicknessUm: z.number().finite().min(1).max(4000).optional(),
  inkVolume: z.number().finite().min(0.1).max(2000).optional(),
});

/** How one ink is printed and sold, by `face inkId`. */
export const InkUseSchema = z.looseObject({
  passes: count(1, 50).optional(),
  density: z.number().finite().min(0.3).max(8).optional(),
  potMl: z.number().finite().min(1).max(100_000).optional(),
  /** Price of a pot, the user's own money. */
  price: z.number().finite().min(0).max(1e9).optional(),
  threadUm: z.number().finite().min(5).max(2000).optional(),
});

/** A screen as it was burned. */
export const BurnedScreenSchema = z.looseObject({
  emulsion: z.string().max(120),
  lamp: z.string().max(120),
  meshPerCm: z.number().finite().min(5).max(250),
  dyed: z.boolean(),
  distance: z.number().finite().min(1).max(20_000),
  time: z.number().finite().min(0.1).max(86_400),
  step: z.number().finite().min(1).max(41).optional(),
  targetStep: z.number().finite().min(1).max(41).optional(),
});

/** A test print's vernier readings, mm, and what the correction left. */
export const RegisterTestSchema = z.looseObject({
  face: z.enum(['bottom', 'top']),
  inkId: z.string().max(64),
  readings: z
    .array(
      z.looseObject({
        x: place,
        y: place,
        along: z.number().finite().min(-50).max(50).optional(),
        across: z.number().finite().min(-50).max(50).optional(),
      }),
    )
    .max(40),
  /** mm root mean square left after the correction, and the clamp moves in words. */
  left: z.number().finite().min(0).max(100),
  words,
});

/** A line of the run's log. */
export const LogEntrySchema = z.looseObject({
  /** The lot: its wood and colourway (null: as drawn); left out: not said. */
  veneerId: z.string().max(64).optional(),
  colourwayId: z.string().max(64).nullable().optional(),
  /** Numbers written on the decks it is about, as `3` or `4-7, 9`; left out: not said. */
  deckNumbers: z.string().max(200).optional(),
  /** Minutes since day 0's midnight. */
  at: z.number().finite().min(0).max(1e6).optional(),
  /** Where a photograph lies, by path. */
  photo: z.string().max(1000).optional(),
  face: z.enum(['bottom', 'top']),
  inkId: z.string().max(64),
  kind: z.enum(['test', 'printed', 'spoiled', 'rescued', 'note']),
  decks: count(0, 10_000),
  words,
  /** mm this pull lay off on that deck: towards the nose, and away from the printer; left out: not read. */
  along: z.number().finite().min(-50).max(50).optional(),
  across: z.number().finite().min(-50).max(50).optional(),
});

/** Good decks wanted of one wood in one colourway (null: as drawn). */
export const LotSchema = z.looseObject({
  veneerId: z.string().max(64),
  colourwayId: z.string().max(64).nullable(),
  decks: count(0, 10_000),
});

/** A run that is over: what a reprint looks back on. Its films are the job's own. */
export const EarlierRunSchema = z.looseObject({
  /** The user's name for it: a month, a customer. */
  name: z.string().min(1).max(200),
  lots: LotSchema.array().max(400),
  log: z.array(LogEntrySchema).max(5000),
  registerTests: z.array(RegisterTestSchema).max(2000),
  finished: z.record(z.string(), z.number().finite().min(0).max(1e6)),
});

/** What the Screens and Press stations remember. All of it may be absent: usual values then stand in. */
export const PRESS_RECORDS = {
  ownMeshes: z.array(OwnMeshSchema).max(100).optional(),
  inkUse: z.record(z.string(), InkUseSchema).optional(),
  waste: share.optional(),
  emulsion: z
    .looseObject({
      name: z.string().max(120).optional(),
      coats: count(1, 20).optional(),
      wetUm: z.number().finite().min(1).max(1000).optional(),
      waste: share.optional(),
    })
    .optional(),
  exposure: z
    .looseObject({
      lamp: z.string().max(120).optional(),
      distance: z.number().finite().min(1).max(20_000).optional(),
      time: z.number().finite().min(0.1).max(86_400).optional(),
      targetStep: z.number().finite().min(1).max(41).optional(),
      dyed: z.boolean().optional(),
    })
    .optional(),
  burned: z.array(BurnedScreenSchema).max(2000).optional(),
  plies: count(2, 50).optional(),
  /** mm between blade or film and the frame's side, and at each end for ink and squeegee. */
  sideMargin: z.number().finite().min(0).max(1000).optional(),
  inkWell: z.number().finite().min(0).max(1000).optional(),
  /** Truck bolts that hold the deck in the jig: all eight, or the outer or inner four. */
  bolts: z.enum(['all', 'outer', 'inner']).optional(),
  frameBar: z.number().finite().min(0).max(300).optional(),
  hinge: z.enum(['near', 'far']).optional(),
  frames: count(1, 200).optional(),
  dryingPlaces: count(1, 200).optional(),
  exposureUnits: count(1, 20).optional(),
  people: count(1, 20).optional(),
  rack: count(1, 10_000).optional(),
  clearCoats: count(0, 20).optional(),
  firstWeekday: count(0, 6).optional(),
  /** Minutes from midnight a person starts and stops, from Monday; null: a day off. */
  hours: z
    .array(z.tuple([count(0, 1440), count(0, 1440)]).nullable())
    .length(7)
    .optional(),
  times: z.record(z.string(), minutes).optional(),
  spoilPerPull: z.number().finite().min(0).max(0.5).optional(),
  deckPrice: z.number().finite().min(0).max(1e9).optional(),
  /** Price of a film sheet. */
  sheetPrice: z.number().finite().min(0).max(1e9).optional(),
  /** Absent: each veneer's decks as drawn. */
  lots: LotSchema.array().max(400).optional(),
  /** The calendar day the plan begins on, as `2026-11-28`; it then says which weekday that is. */
  startDate: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .optional(),
  /** Minutes since day 0's midnight at which planned tasks were finished, by task. */
  finished: z.record(z.string(), z.number().finite().min(0).max(1e6)).optional(),
  registerTests: z.array(RegisterTestSchema).max(2000).optional(),
  log: z.array(LogEntrySchema).max(5000).optional(),
  /** Runs of these films before this one, oldest first. */
  earlier: z.array(EarlierRunSchema).max(200).optional(),
};

export type LogEntry = z.infer<typeof LogEntrySchema>;
export type Lot = z.infer<typeof LotSchema>;
export type EarlierRun = z.infer<typeof EarlierRunSchema>;
