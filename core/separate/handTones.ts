import { LINEAR_OF_BYTE, oklabOfLinear, parseHex } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import { oklabDistance } from './cluster.ts';
import type { HandRegions } from './handRegions.ts';
import { handCover } from './handShape.ts';

/** What a hand has changed on shaded art. */
export interface HandTones {
  readonly regions: HandRegions;
  /** Colours of the art that are to look like another colour; what is near one follows it by degrees. null: bare. */
  readonly recolour: readonly {
    readonly hex: string;
    readonly as: string | null;
  }[];
  /** The colour of each plane solid: plane 0 is bare wood, null; so is an ink that shows no art of its own. */
  readonly planes: readonly (string | null)[];
}

/** OKLab; a shade this far from an assigned colour no longer follows it. */
const FOLLOWS = 0.12;

/** The picture as a hand has changed it; the picture itself where nothing was changed. Alpha is straight. */
export function withHand(picture: Picture, hand: HandTones): Picture {
  if (hand.regions.list.length === 0 && hand.recolour.length === 0) return picture;
  const width = picture.width as number;
  const data = Uint8Array.from(picture.data);
  for (const { hex, as } of hand.recolour) recolour(data, hex, as);
  const solids = hand.planes.map((hex) => (hex ? parseHex(hex) : null));
  const looks = hand.planes.map((hex) => (hex ? oklabOf(...parseHex(hex)) : null));
  /** The ink that looks nearest to a point, by its plane; 0: bare. */
  const nearest = (at: number): number => {
    if (data[at + 3]! < 128) return 0;
    const p = oklabOf(data[at]!, data[at + 1]!, data[at + 2]!);
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    looks.forEach((q, i) => {
      const d = q ? oklabDistance(p, q) : Number.POSITIVE_INFINITY;
      if (d < least) {
        least = d;
        best = i;
      }
    });
    return best;
  };
  for (const { shape, to, only, bareStays } of hand.regions.list) {
    const cover = handCover(shape, hand.regions.frame, width, picture.height as number);
    if (!cover) continue;
    const solid = solids[to] ?? null;
    const { width: wide, height: high, data: shares } = cover.plane;
    for (let y = 0; y < high; y++)
      for (let x = 0; x < wide; x++) {
        const share = shares[y * wide + x]! / 255;
        if (share === 0) continue;
        const at = 4 * ((cover.y + y) * width + cover.x + x);
        if (only !== null && nearest(at) !== only) continue;
        const alpha = data[at + 3]!;
        if (solid === null) data[at + 3] = Math.round(alpha * (1 - share));
        else {
          const over = bareStays ? alpha : Math.round(alpha + (255 - alpha) * share);
          if (over === 0) continue;
          // What shines through at a soft edge is the art's own colour, as far as it was there.
          const own = bareStays ? share : share / (share + (alpha / 255) * (1 - share));
          for (let c = 0; c < 3; c++)
            data[at + c] = Math.round(data[at + c]! + (solid[c]! - data[at + c]!) * own);
          data[at + 3] = over;
        }
      }
  }
  return { width: picture.width, height: picture.height, data };
}

const oklabOf = (r: number, g: number, b: number) =>
  oklabOfLinear([LINEAR_OF_BYTE[r]!, LINEAR_OF_BYTE[g]!, LINEAR_OF_BYTE[b]!]);

/** Moves what looks like `hex` to `as`: wholly where it is that colour, less the further off it is. */
function recolour(data: Uint8Array, hex: string, as: string | null): void {
  const from = parseHex(hex);
  const to = as ? parseHex(as) : null;
  const look = oklabOf(...from);
  let last = -1;
  let pull = 0;
  for (let at = 0; at < data.length; at += 4) {
    if (data[at + 3] === 0) continue;
    const word = (data[at]! << 16) | (data[at + 1]! << 8) | data[at + 2]!;
    if (word !== last) {
      last = word;
      const d = oklabDistance(oklabOf(data[at]!, data[at + 1]!, data[at + 2]!), look);
      pull = Math.max(0, 1 - d / FOLLOWS);
    }
    if (pull === 0) continue;
    if (to)
      for (let c = 0; c < 3; c++)
        data[at + c] = Math.max(0, Math.min(255, Math.round(data[at + c]! + pull * (to[c]! - from[c]!))));
    else data[at + 3] = Math.round(data[at + 3]! * (1 - pull));
  }
}
