import { oklabOfLinear } from './oklab.ts';
import { linearOfHex } from './srgb.ts';

/**
 * Plain words for a colour, by OKLab hue (degrees, up to and without `to`) and lightness: light, middle, dark. The words are
 * ours; no standard names are claimed.
 */
const HUES: readonly { readonly to: number; readonly words: readonly [string, string, string] }[] = [
  { to: 15, words: ['rose pink', 'rose red', 'wine red'] },
  { to: 34, words: ['salmon', 'poppy red', 'oxide red'] },
  { to: 50, words: ['peach', 'coral', 'brick'] },
  { to: 70, words: ['apricot', 'orange', 'chestnut'] },
  { to: 92, words: ['sun yellow', 'ochre', 'bark brown'] },
  { to: 115, words: ['lemon yellow', 'mustard', 'olive'] },
  { to: 140, words: ['lime green', 'leaf green', 'moss green'] },
  { to: 165, words: ['mint green', 'grass green', 'forest green'] },
  { to: 195, words: ['pale sea green', 'sea green', 'pine green'] },
  { to: 228, words: ['turquoise', 'lagoon blue', 'petrol blue'] },
  { to: 260, words: ['sky blue', 'harbour blue', 'slate blue'] },
  { to: 285, words: ['pale blue', 'royal blue', 'night blue'] },
  { to: 322, words: ['lilac', 'violet', 'deep violet'] },
  { to: 345, words: ['orchid', 'magenta', 'plum'] },
  { to: 361, words: ['blossom pink', 'raspberry', 'mulberry'] },
];
const GREYS: readonly (readonly [leastL: number, word: string])[] = [
  [0.94, 'white'],
  [0.8, 'pale grey'],
  [0.55, 'grey'],
  [0.32, 'dark grey'],
  [0, 'black'],
];
/** OKLab chroma below which a colour reads as grey, and below which a light one reads as off-white. */
const GREY = 0.03;
const OFF_WHITE = 0.045;
/** Chroma below which a middling colour gets a word for it. */
const DUSTY = 0.06;

/** A plain name for an sRGB colour, like “sun yellow” or “night blue”. */
export function colourName(hex: string): string {
  const { l, a, b } = oklabOfLinear(linearOfHex(hex));
  const chroma = Math.hypot(a, b);
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  if (chroma < OFF_WHITE && l > 0.9 && hue > 40 && hue < 125 && chroma > 0.006) return 'warm white';
  if (chroma < GREY || l < 0.1) return GREYS.find(([least]) => l >= least)![1];
  if (chroma < 0.08 && l > 0.62 && hue > 50 && hue < 110) return 'sand';
  const { words } = HUES.find(({ to }) => hue < to)!;
  // Warm colours read as brown early, and yellows are light by nature: their middle lies higher.
  const lift = hue > 15 && hue < 140 ? 0.08 : 0;
  const word = l > 0.7 + lift ? words[0] : l > 0.42 + lift ? words[1] : words[2];
  return chroma < DUSTY && l > 0.45 && l < 0.85 ? `dusty ${word}` : word;
}

/** Names for several colours, each its own: a second of one name gets a number. */
export function colourNames(hexes: readonly string[]): string[] {
  const used = new Map<string, number>();
  return hexes.map((hex) => {
    const name = colourName(hex);
    const n = (used.get(name) ?? 0) + 1;
    used.set(name, n);
    return n === 1 ? name : `${name} ${n}`;
  });
}
