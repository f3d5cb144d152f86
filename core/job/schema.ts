import * as z from 'zod';
import { DeckSchema } from '../deck/index.ts';
import { PRESS_RECORDS } from './pressRecords.ts';

/** The version this program writes. */
export const JOB_VERSION = 1;

const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
const hex = z.string().regex(/^#[0-9a-f]{6}$/);
const mm = (max: number) => z.number().finite().min(0).max(max);
const signedMm = z.number().finite().min(-5000).max(5000);

/** What of a layer is ink: whatever is drawn there (`alpha`), or only as much as it is dark (`darkness`: black is ink). */
export const LAYER_TAKES = ['alpha', 'darkness'] as const;

/** A piece that was prepared as one ink's layer. */
export const LayerSchema = z.looseObject({
  /** The ink it is for, by id; null: it does not print. */
  ink: id.nullable(),
  takes: z.enum(LAYER_TAKES),
});
export type Layer = z.infer<typeof LayerSchema>;
const artPoint = z.tuple([z.number().finite(), z.number().finite()]);
/**
 * A region of a piece that was given by hand to an ink or to bare wood. In the art's own pixels (x to the right, y down, its top
 * left corner at 0, 0), so that it follows the piece wherever that is moved.
 */
export const HandRegionSchema = z.looseObject({
  id,
  /** The ink's id; null: bare wood. */
  to: id.nullable(),
  /** Only what this ink had changes; null: whatever is there. */
  only: id.nullable(),
  /** What is bare in the art stays bare. */
  bareStays: z.boolean(),
  shape: z.discriminatedUnion('kind', [
    z.looseObject({
      kind: z.literal('lasso'),
      ring: z.array(artPoint).min(3).max(4000),
    }),
    z.looseObject({
      kind: z.literal('brush'),
      radius: z.number().finite().min(0.001).max(1_000_000),
      path: z.array(artPoint).min(1).max(4000),
    }),
  ]),
});
export type HandRegion = z.infer<typeof HandRegionSchema>;

const cut = z.number().finite().min(0).max(0.99);
export const CropSchema = z
  .looseObject({ left: cut, top: cut, right: cut, bottom: cut })
  .refine((c) => c.left + c.right < 0.995 && c.top + c.bottom < 0.995, 'expected some of the art to be left');
export type Crop = z.infer<typeof CropSchema>;

/** Words set as outlines; see `TextSetting` in core/text, whose fields these are. */
export const TextSchema = z.looseObject({
  words: z.string().min(1).max(400),
  /** A typeface that comes with the program, or `own-` and the SHA-256 of a font file kept in the job file as `fonts/<sha-256>`. */
  font: z.string().max(80),
  fontName: z.string().max(200),
  cap: z.number().finite().min(0.5).max(1000),
  tracking: z.number().finite().min(-200).max(200),
  leading: z.number().finite().min(0.5).max(10),
  align: z.enum(['left', 'centre', 'right']),
  arc: signedMm,
  hex,
});

/** A piece of art on a face. The untouched original lies in the job file under its content hash. */
export const ArtSchema = z.looseObject({
  id,
  name: z.string().max(400),
  /** SHA-256 of the original bytes, lower-case hex. */
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  mediaType: z.enum(['image/png', 'image/jpeg', 'image/webp', 'image/tiff', 'image/avif', 'image/svg+xml']),
  /** The art's own size in its own pixels after its orientation is applied (SVG: user units as the codec reports). */
  widthPx: z.number().finite().min(0.01).max(1_000_000),
  heightPx: z.number().finite().min(0.01).max(1_000_000),
  /** Size on the deck before rotation, mm. Both are kept, so a stretch is possible. */
  width: z.number().finite().min(0.1).max(5000),
  height: z.number().finite().min(0.1).max(5000),
  /** Centre on the deck, mm; in surface space for `surface` wrap, in plan for `plan` wrap. */
  x: signedMm,
  y: signedMm,
  /** Degrees, counter-clockwise as seen. */
  rotationDeg: z.number().finite().min(-3600).max(3600),
  /** Left to right, before the rotation. */
  mirror: z.boolean(),
  wrap: z.enum(['surface', 'plan']),
  /** A colour of the art that means bare wood (a paper ground), or null. Transparent is always bare. */
  ground: hex.nullable(),
  hidden: z.boolean(),
  /** Method `layered`: which ink the piece is for. */
  layer: LayerSchema.optional(),
  /** Pieces with the same word here, as those of one file of layers, are taken and moved together. */
  group: id.optional(),
  /** In the order they were drawn. */
  regions: z.array(HandRegionSchema).max(500).optional(),
  /** Cut away from each side of the art as it was drawn, as shares of its size; `width` and `height` are of what is left. */
  crop: CropSchema.optional(),
  /** How strongly it covers the art beneath and the wood, 0 to 1, where tones are printed; left out: 1. */
  opacity: z.number().finite().min(0).max(1).optional(),
  /** What the outlines say, so that they can be set again; the art itself is the drawing. */
  text: TextSchema.optional(),
});
export type Art = z.infer<typeof ArtSchema>;
export type TextData = z.infer<typeof TextSchema>;

export const INK_KINDS = ['opaque', 'transparent', 'pearlescent', 'glow', 'metallic', 'clear'] as const;

/** One ink of a face. Its place in the face's list is its pull, counted from 1. */
export const InkSchema = z.looseObject({
  id,
  name: z.string().min(1).max(120),
  /** sRGB as it looks in one pass over white. */
  hex,
  /** The colour of the art that it prints; left out: its own. So an ink can be recoloured without touching its film. */
  matches: hex.optional(),
  /** Share of what lies under it that one pass hides, 0 to 1. */
  opacity: z.number().finite().min(0).max(1),
  kind: z.enum(INK_KINDS),
  /** The base also prints under every ink that needs it; a colour prints only its own art. */
  role: z.enum(['colour', 'base']),
  /** Veneers (ids) on which this ink needs the base beneath it; `all` for every veneer. */
  needsBase: z.union([z.literal('all'), z.array(id).max(50)]),
  /** Threads per cm of the screen it is pulled through. */
  meshPerCm: z.number().finite().min(5).max(250),
  /** mm it spreads past its stencil's edge; its film is drawn in by that beside bare wood. Left out: not at all. */
  gain: mm(2).optional(),
  /**
   * Where the ink is split another way than its face. `spot`: line work cut sharp among tones (methods index and halftone).
   * `halftone`: its layer as screened tones (method layered).
   */
  split: z.enum(['spot', 'halftone']).optional(),
  /** Protected by hand: suggested inks do not replace it, and no speck of it is dropped. */
  kept: z.boolean().optional(),
  /** One dried pass measured over a black and a white card (sRGB): then it is shown by these rather than by hex and opacity. */
  measured: z.looseObject({ overBlackHex: hex, overWhiteHex: hex }).optional(),
});
export type Ink = z.infer<typeof InkSchema>;

export const VeneerSchema = z.looseObject({
  id,
  name: z.string().min(1).max(120),
  hex,
  /** Decks of this veneer in the run. */
  decks: z.number().int().min(0).max(10000),
});
export type Veneer = z.infer<typeof VeneerSchema>;

/** Other colours for the same films. Inks not named keep their own colour. */
export const ColourwaySchema = z.looseObject({
  id,
  name: z.string().min(1).max(120),
  colours: z.record(z.string(), z.looseObject({ name: z.string().max(120), hex })),
});
export type Colourway = z.infer<typeof ColourwaySchema>;

/** Who spreads under whom, where the user overrides the rule. Inks by id; `none`: the two stay butted. */
export const PairOverrideSchema = z.looseObject({
  a: id,
  b: id,
  spreads: z.enum(['a', 'b', 'none']),
  /** mm; null: the face's own trap width. */
  width: mm(10).nullable(),
});

export const TrapsSchema = z.looseObject({
  /** mm each ink spreads under its neighbour. 0: butted. */
  width: mm(10),
  pairs: z.array(PairOverrideSchema).max(400),
  /** mm the base is choked inside what covers it. */
  choke: mm(10),
  /** mm, narrowest line the meshes can hold; thinner parts are never drawn in. */
  narrowestLine: mm(5),
});
export type Traps = z.infer<typeof TrapsSchema>;

export const DOT_SHAPES = ['round', 'elliptical', 'line'] as const;
export const DITHERS = ['diffusion', 'blue-noise'] as const;

/** Shaded art as dots of single inks. */
export const IndexSchema = z.looseObject({
  /** mm, side of a dot. */
  dotMm: z.number().finite().min(0.05).max(5),
  /** How dots are placed: what one missed goes to its neighbours (`diffusion`, where left out), or by an even grain. */
  dither: z.enum(DITHERS).optional(),
});
export type IndexDots = z.infer<typeof IndexSchema>;

/** How much darker the press prints a tone than the film holds it; see `printedTone`. */
export const DotGainSchema = z.looseObject({
  /** Share that a tone of one half gains: 0.2 prints it as 0.7. */
  midtone: z.number().finite().min(-0.2).max(0.45).optional(),
  /** Measured patches: the film's tone and what it printed as. They count instead of the midtone where there are any. */
  patches: z
    .array(
      z.looseObject({ film: z.number().finite().min(0).max(1), printed: z.number().finite().min(0).max(1) }),
    )
    .max(40)
    .optional(),
});
export type DotGain = z.infer<typeof DotGainSchema>;

/** Shaded art as screened tones. */
export const HalftoneSchema = z.looseObject({
  /** Lines (rows of dots) an inch. */
  lpi: z.number().finite().min(10).max(200),
  dot: z.enum(DOT_SHAPES),
  /** Degrees anticlockwise from the deck's length, as seen, by ink id; inks not named get the usual ones. */
  angles: z.record(z.string(), z.number().finite().min(-360).max(360)).optional(),
  /** What the press adds, which the films leave out; left out: nothing. */
  gain: DotGainSchema.optional(),
});
export type Halftone = z.infer<typeof HalftoneSchema>;

/** A colour of the art given by hand to an ink, or to bare wood (null), whatever looks nearest to it. */
export const HandColourSchema = z.looseObject({ hex, ink: id.nullable() });
export type HandColour = z.infer<typeof HandColourSchema>;

export const FaceSchema = z.looseObject({
  /** Bottom-most first. */
  art: z.array(ArtSchema).max(200),
  /** In pull order. */
  inks: z.array(InkSchema).max(24),
  /** Colours of the art assigned by hand. */
  handColours: z.array(HandColourSchema).max(36).optional(),
  method: z.enum(['spot', 'index', 'halftone', 'layered']),
  /** Of method `index`; left out: the usual dot. */
  index: IndexSchema.optional(),
  /** Of method `halftone`; left out: the usual screen. */
  halftone: HalftoneSchema.optional(),
  traps: TrapsSchema,
  /** mm² below which a speck or hole is dropped. */
  smallest: mm(100),
  /** mm the printable area stays inside the outline. */
  railMargin: mm(100),
  /** mm radius kept clear round each truck hole; 0: art may run over the holes. */
  clearHoles: mm(60),
  development: z.enum(['balanced', 'centreline']),
  /** Where the user wants this face's sheets to meet, by ink: middles of shared strips, mm along the film. */
  boundaries: z.record(z.string(), z.array(signedMm).max(60)).optional(),
  /** Own lines that art snaps to, mm on the surface: `s` lies across the deck at that distance from mid-wheelbase, `t` along it. */
  guides: z
    .array(z.looseObject({ along: z.enum(['s', 't']), at: signedMm }))
    .max(60)
    .optional(),
  /** Measured growth of the print against the film, from a test print: 0.004 is 0.4 %. null: the estimate is used. */
  measuredGrowth: z.looseObject({
    along: z.number().finite().min(-0.1).max(0.1).nullable(),
    across: z.number().finite().min(-0.1).max(0.1).nullable(),
  }),
});
export type FaceJob = z.infer<typeof FaceSchema>;

export const FILM_MEDIA = ['laser-film', 'inkjet-film', 'tracing-paper'] as const;

export const PrinterSchema = z.looseObject({
  name: z.string().max(120),
  dpi: z.number().int().min(72).max(2540),
  /** A name of a known sheet, or `custom` with the size below. */
  sheet: z.string().max(60),
  sheetWidth: z.number().finite().min(20).max(5000),
  sheetHeight: z.number().finite().min(20).max(20000),
  /** mm the printer can't reach on each edge. */
  margin: mm(100),
  /** Printed length over asked length, along the sheet's own x and y. */
  scaleX: z.number().finite().min(0.9).max(1.1),
  scaleY: z.number().finite().min(0.9).max(1.1),
  /** Degrees a printed upright leans to the right; left out: none was measured. */
  skewDeg: z.number().finite().min(-2).max(2).optional(),
  /**
   * Share by which the film is shorter when cooled and dry than as printed, along the sheet's x and y; left out: none. Not
   * in the scale above, unless that was measured on this very film: then leave these out.
   */
  shrinkX: z.number().finite().min(-0.02).max(0.02).optional(),
  shrinkY: z.number().finite().min(-0.02).max(0.02).optional(),
  /** What the films are printed on; films of different stuff shrink differently, so a calibration belongs to one. */
  media: z.enum(FILM_MEDIA).optional(),
  /** Small films of a face may lie together on a sheet. */
  shareSheets: z.boolean().optional(),
  /** Where the common marks stand; left out: `auto`. */
  filmMarks: z.enum(['auto', 'deck', 'art']).optional(),
  /** mm neighbouring sheets share. */
  overlap: mm(100),
  mirror: z.boolean(),
});
export type Printer = z.infer<typeof PrinterSchema>;

export const PressSchema = z.looseObject({
  /** mm inside the frame, across and along the deck. */
  frameWidth: mm(3000),
  frameLength: mm(5000),
  /** mm between mesh and the highest wood. */
  offContact: mm(100),
  /** mm, squeegee blade. */
  blade: mm(2000),
  /** Share of its length the mesh may be stretched: 0.03 is 3 %. */
  maxStretch: z.number().finite().min(0.001).max(0.2),
  /** mm, how far a pull wanders by hand. */
  registerTolerance: mm(10),
  /** Off: films are not corrected for mesh growth. */
  compensateGrowth: z.boolean(),
  ...PRESS_RECORDS,
});
export type Press = z.infer<typeof PressSchema>;

/** Everything about one run. Lengths mm. */
export const JobSchema = z.looseObject({
  version: z.literal(JOB_VERSION),
  name: z.string().min(1).max(200),
  shop: z.string().max(200),
  notes: z.string().max(20000),
  units: z.enum(['mm', 'in']),
  deck: DeckSchema,
  faces: z.looseObject({ bottom: FaceSchema, top: FaceSchema }),
  veneers: z.array(VeneerSchema).min(1).max(50),
  /** The first is the inks as they are; it has no colours of its own. */
  colourways: z.array(ColourwaySchema).max(50),
  printer: PrinterSchema,
  press: PressSchema,
});
export type Job = z.infer<typeof JobSchema>;
