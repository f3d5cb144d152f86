import * as z from 'zod';
import { INK_KINDS, InkSchema } from '../job/index.ts';

/** An ink as it is bought and used here, by its name. */
export const ShopInkSchema = z.looseObject({
  name: z.string().min(1).max(120),
  hex: z
    .string()
    .regex(/^#[0-9a-f]{6}$/)
    .optional(),
  /** How it looks and behaves on the deck; see the job's own ink. */
  opacity: InkSchema.shape.opacity.optional(),
  kind: z.enum(INK_KINDS).optional(),
  meshPerCm: InkSchema.shape.meshPerCm.optional(),
  measured: InkSchema.shape.measured,
  /** Printing strokes. */
  passes: z.number().int().min(1).max(50).optional(),
  /** g/ml. */
  density: z.number().finite().min(0.3).max(8).optional(),
  potMl: z.number().finite().min(1).max(100_000).optional(),
  /** Price of a pot, the user's own money. */
  price: z.number().finite().min(0).max(1e9).optional(),
});
export type ShopInk = z.infer<typeof ShopInkSchema>;

/** Names are the same however they are spaced or capitalised. */
export const sameName = (a: string, b: string): boolean => plain(a) === plain(b);
const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();
