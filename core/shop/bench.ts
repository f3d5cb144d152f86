import * as z from 'zod';

/** How the studio itself is set on this machine. */
export const BenchSchema = z.looseObject({
  theme: z.enum(['light', 'dark', 'system']).optional(),
  /** Stations whose first hint was put away. */
  hintsSeen: z.array(z.string().max(40)).max(50).optional(),
  /** The screen's own dots a millimetre, as it was held against a card or a ruler. */
  screenPxPerMm: z.number().finite().min(0.5).max(100).optional(),
});
export type Bench = z.infer<typeof BenchSchema>;
