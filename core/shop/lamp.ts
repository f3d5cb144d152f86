import * as z from 'zod';

/** An exposure lamp as it stands in the shop. */
export const LampSchema = z.looseObject({
  name: z.string().min(1).max(120),
  /** mm from lamp to glass. */
  distance: z.number().finite().min(1).max(20_000).optional(),
  /** s that burned the last good screen. */
  time: z.number().finite().min(0.1).max(86_400).optional(),
});
export type Lamp = z.infer<typeof LampSchema>;
