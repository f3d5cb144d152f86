import * as z from 'zod';
import { OwnMeshSchema, PrinterSchema } from '../job/index.ts';
import { shopTrouble } from '../sentences/index.ts';
import { done, issueText, type Outcome } from '../units/index.ts';
import { BenchSchema } from './bench.ts';
import { EmulsionSchema } from './emulsion.ts';
import { FrameSchema } from './frame.ts';
import { LampSchema } from './lamp.ts';
import { RunHabitsSchema } from './runHabits.ts';
import { ShopInkSchema } from './shopInk.ts';

/** The version this program writes. */
export const SHOP_VERSION = 1;

/**
 * What a shop has and how it works, kept on this machine apart from every job. Of lists, the first is the one a new job
 * starts with. A job holds its own copy of what it uses, so that it is the same everywhere.
 */
export const ShopSchema = z.looseObject({
  version: z.literal(SHOP_VERSION),
  meshes: z.array(OwnMeshSchema).max(100),
  inks: z.array(ShopInkSchema).max(500),
  lamps: z.array(LampSchema).max(50),
  emulsions: z.array(EmulsionSchema).max(50),
  frames: z.array(FrameSchema).max(50),
  /** Printers as they were measured, by name. */
  printers: z.array(PrinterSchema).max(50),
  habits: RunHabitsSchema,
  bench: BenchSchema.optional(),
});
export type Shop = z.infer<typeof ShopSchema>;

export const EMPTY_SHOP: Shop = {
  version: SHOP_VERSION,
  meshes: [],
  inks: [],
  lamps: [],
  emulsions: [],
  frames: [],
  printers: [],
  habits: {},
};

/** A shop's file from outside, checked key by key; keys this version does not know are kept. */
export function readShop(raw: unknown): Outcome<Shop> {
  const version =
    raw !== null && typeof raw === 'object' ? (raw as { version?: unknown }).version : undefined;
  if (typeof version === 'number' && version > SHOP_VERSION) return shopTrouble.newer(version);
  const parsed = ShopSchema.safeParse(raw);
  return parsed.success
    ? done(parsed.data)
    : shopTrouble.damagedAt(issueText(parsed.error.issues[0], 'the file'));
}

/** Whether nothing has been kept yet. */
export const isEmptyShop = (shop: Shop): boolean =>
  [shop.meshes, shop.inks, shop.lamps, shop.emulsions, shop.frames, shop.printers].every(
    (list) => list.length === 0,
  ) && Object.values(shop.habits).every((value) => value === undefined);
