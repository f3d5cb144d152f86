import { hexOfLinear, LINEAR_OF_BYTE, type LinearRgb, oklabOfLinear } from './colour/index.ts';
import { type Ink, inkFrom, type Layer } from './job/index.ts';
import type { Picture } from './raster/index.ts';

/** A layer as it came, with a look at it. */
export interface LayerLook {
  readonly name: string;
  readonly look: Picture;
}

/** Colours for plates that are all black: what the ink will be is not in the file. Ours, told apart at a glance. */
const STAND_INS = [
  '#1b2440',
  '#e8613c',
  '#f2b632',
  '#2f8f83',
  '#8a4f9e',
  '#8a5a34',
  '#c2466b',
  '#5b7f35',
] as const;
/** OKLab lightness and chroma below which a layer is a black plate. */
const BLACK = { l: 0.35, chroma: 0.04 } as const;

/** Whether anything of a layer is see-through: then what is drawn is ink, and else what is dark. */
export function takesOf({ data }: Picture): Layer['takes'] {
  for (let i = 3; i < data.length; i += 4) if ((data[i] as number) < 128) return 'alpha';
  return 'darkness';
}

/** Mean colour of what a layer shows, in light; black where it shows nothing. */
function meanOf({ data }: Picture): LinearRgb {
  const sum = [0, 0, 0];
  let weight = 0;
  for (let i = 0; i < data.length; i += 4) {
    const alpha = data[i + 3] as number;
    if (alpha === 0) continue;
    for (let c = 0; c < 3; c++)
      sum[c] = (sum[c] as number) + alpha * (LINEAR_OF_BYTE[data[i + c] as number] as number);
    weight += alpha;
  }
  return weight === 0
    ? [0, 0, 0]
    : [(sum[0] as number) / weight, (sum[1] as number) / weight, (sum[2] as number) / weight];
}

/**
 * An ink for each layer, in the layers' order: its name, and the colour it is drawn in. Plates (dark on an opaque ground, or
 * several of them all black) name no colour; they get colours that are told apart, to be changed by the user.
 */
export function inksOfLayers(layers: readonly LayerLook[]): Ink[] {
  const drawn = layers.map(({ look }) => {
    const mean = meanOf(look);
    const { l, a, b } = oklabOfLinear(mean);
    const black = l < BLACK.l && Math.hypot(a, b) < BLACK.chroma;
    return { hex: hexOfLinear(mean), plate: takesOf(look) === 'darkness', black };
  });
  const blacks = drawn.filter(({ black, plate }) => black && !plate).length;
  const inks: Ink[] = [];
  let next = 0;
  for (const [i, { hex, plate, black }] of drawn.entries()) {
    const unknown = plate || (black && blacks > 1);
    const colour = unknown ? (STAND_INS[next++ % STAND_INS.length] as string) : hex;
    inks.push(
      inkFrom({ name: (layers[i] as LayerLook).name.slice(0, 120) || `Ink ${i + 1}`, hex: colour }, inks),
    );
  }
  return inks;
}

const plain = (name: string) => name.trim().toLowerCase();

/** The ink a layer is named like, by name or id; null: none. */
export const inkNamed = (inks: readonly Ink[], layer: string): Ink | null =>
  inks.find(({ name, id }) => plain(name) === plain(layer) || id === plain(layer)) ?? null;
