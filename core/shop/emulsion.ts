import * as z from 'zod';

/** An emulsion on the shelf, with how it is coated here. */
export const EmulsionSchema = z.looseObject({
  name: z.string().min(1).max(120),
  /** Coats on each side. */
  coats: z.number().int().min(1).max(20).optional(),
  /** µm that a wet coat adds. */
  wetUm: z.number().finite().min(1).max(1000).optional(),
  /** Share that is lost. */
  waste: z.number().finite().min(0).max(20).optional(),
  /** Last solid step of the tablet that is wanted. */
  targetStep: z.number().finite().min(1).max(41).optional(),
});
export type Emulsion = z.infer<typeof EmulsionSchema>;
