import * as z from 'zod';

/** A frame, or several alike. Lengths mm, inside. */
export const FrameSchema = z.looseObject({
  name: z.string().min(1).max(120),
  width: z.number().finite().min(1).max(3000),
  length: z.number().finite().min(1).max(5000),
  /** mm, the frame's own bar. */
  bar: z.number().finite().min(0).max(300).optional(),
  /** How many of them there are. */
  count: z.number().int().min(1).max(200).optional(),
});
export type Frame = z.infer<typeof FrameSchema>;
