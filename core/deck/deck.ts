import * as z from 'zod';

/** Schemas keep keys they do not know, so that a round trip loses nothing a later version wrote. */
const length = (max: number) => z.number().finite().min(0).max(max);

/** One kick, measured on the top face. */
export const KickSchema = z.looseObject({
  /** mm from the outer truck holes to where the bend begins. */
  start: length(300),
  /** mm, radius of the bend on the top face. */
  radius: length(2000),
  /** Degrees the ramp rises. 0: no kick. */
  angleDeg: z.number().finite().min(0).max(60),
});
export type Kick = z.infer<typeof KickSchema>;

/** The round end of an outline, in plan: a superellipse arc over its `length`, of the given exponent. */
export const OutlineEndSchema = z.looseObject({
  /** mm the rounded end takes along the deck. */
  length: length(600),
  /** Superellipse exponent: 2 is an ellipse, more is squarer, less is more pointed. */
  exponent: z.number().finite().min(0.8).max(8),
  /** mm, full width where the rounded end begins; 0 means the deck's own width. */
  width: length(500),
});
export type OutlineEnd = z.infer<typeof OutlineEndSchema>;

/** Always in plan: mm, origin mid-wheelbase on the centreline, +x to the nose. */
export const OutlineSchema = z.discriminatedUnion('kind', [
  z.looseObject({
    kind: z.literal('parametric'),
    nose: OutlineEndSchema,
    tail: OutlineEndSchema,
    /** mm the rails draw in at mid-wheelbase, each side. */
    waist: length(60),
  }),
  z.looseObject({
    kind: z.literal('path'),
    /** Closed polygon, last point not repeated, seen from the bottom face. */
    points: z
      .array(z.tuple([z.number().finite(), z.number().finite()]))
      .min(3)
      .max(20000),
    source: z.string().max(400),
  }),
]);
export type Outline = z.infer<typeof OutlineSchema>;

/** The deck's full measurements. mm; measured on the top face where the face matters. */
export const DeckSchema = z.looseObject({
  name: z.string().max(200),
  outline: OutlineSchema,
  /** Rail to rail at the widest, mm, in plan. */
  width: z.number().finite().min(60).max(500),
  /** Plan lengths from the outer truck holes to the nose tip and the tail tip, mm. */
  noseLength: length(600),
  tailLength: length(600),
  /** mm between the inner truck holes. */
  wheelbase: z.number().finite().min(100).max(1200),
  /** Truck hole pattern, mm, centre to centre, and hole diameter. */
  holes: z.looseObject({ along: length(150), across: length(150), diameter: length(20) }),
  /** mm between top and bottom face. */
  thickness: z.number().finite().min(2).max(40),
  concave: z.looseObject({
    profile: z.enum(['radial', 'flat-centre']),
    /** mm, straightedge across the rails, gap at the centre. 0: flat. */
    depth: length(60),
    /** mm of flat strip in the middle; only for `flat-centre`. */
    flatWidth: length(400),
    /** mm along each kick over which the concave falls smoothly to zero; 0: it runs on unchanged. */
    fade: length(400),
  }),
  nose: KickSchema,
  tail: KickSchema,
});
export type Deck = z.infer<typeof DeckSchema>;
export type Face = 'bottom' | 'top';
export const FACES: readonly Face[] = ['bottom', 'top'];
