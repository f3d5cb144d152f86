import { LINEAR_OF_BYTE, linearOfHex, parseHex } from '../colour/index.ts';
import { type Layer, layerFromReadings } from './kubelkaMunk.ts';

/** What decides how a pull looks over what is under it. */
export interface InkLook {
  /** sRGB as it looks over white. */
  readonly hex: string;
  /** Share of what lies under it that one pass hides, 0 to 1. */
  readonly opacity: number;
  /** opaque, transparent, pearlescent, glow, metallic or clear; anything else counts as opaque. */
  readonly kind: string;
  /** Measured over a black and a white card, #rrggbb each; then opacity and kind are not needed. */
  readonly measured?: { readonly overBlackHex: string; readonly overWhiteHex: string } | undefined;
}

/**
 * One channel of an ink over a substrate, both linear light: over = body + through × under / (1 − r0 × under); r0 is 0 unless
 * the ink was measured.
 */
export interface ChannelLook {
  readonly body: number;
  readonly through: number;
  readonly r0: number;
}

/**
 * Share of the light under a pearlescent pass that its flakes throw back as a pale sheen, seen straight on.
 * Common practice, no source: it whitens what is under it a little and never hides it.
 */
const PEARL_SHEEN = 0.08;
/** A clear coat wets the wood: bare wood and matt ink look this much deeper. Common practice, no source. */
const CLEAR_DEPTH = 0.94;

const clamp = (v: number) => Math.max(0, Math.min(1, v));

const measuredChannel = ({ r0, t2 }: Layer): ChannelLook => ({ body: r0, through: t2, r0 });

/**
 * How an ink looks, for red, green and blue.
 * opaque, glow (by daylight), metallic (without its glint): a mix in linear light by opacity.
 * transparent: it filters what is under it; the opaque share of it adds its own colour. Over white it shows its hex.
 * pearlescent: a filter with a pale sheen. clear: what is under it, a little deeper.
 * measured: Kubelka–Munk over the two cards (taken as ideal black and white).
 */
export function lookOf(ink: InkLook): readonly [ChannelLook, ChannelLook, ChannelLook] {
  if (ink.measured) {
    const black = parseHex(ink.measured.overBlackHex);
    const white = parseHex(ink.measured.overWhiteHex);
    const channel = (i: 0 | 1 | 2) =>
      measuredChannel(layerFromReadings(LINEAR_OF_BYTE[black[i]]!, LINEAR_OF_BYTE[white[i]]!));
    return [channel(0), channel(1), channel(2)];
  }
  const hides = clamp(ink.opacity);
  const light = linearOfHex(ink.hex);
  const channel = (colour: number): ChannelLook => {
    switch (ink.kind) {
      case 'transparent':
        return { body: hides * colour, through: (1 - hides) * colour, r0: 0 };
      case 'pearlescent': {
        const through = (1 - hides) * (1 - PEARL_SHEEN);
        return { body: hides * colour + (1 - hides) * PEARL_SHEEN, through, r0: 0 };
      }
      case 'clear':
        return { body: 0, through: CLEAR_DEPTH, r0: 0 };
      default:
        return { body: hides * colour, through: 1 - hides, r0: 0 };
    }
  };
  return [channel(light[0]), channel(light[1]), channel(light[2])];
}

/** What a proof cannot show of an ink of this kind, in one sentence; null when there is nothing to say. */
export function approximationOf(kind: string): string | null {
  switch (kind) {
    case 'pearlescent':
      return 'Pearlescent ink is shown as a pale sheen seen straight on; its change with the angle is not.';
    case 'glow':
      return 'Glow ink is shown by daylight, not in the dark.';
    case 'metallic':
      return 'Metallic ink is shown flat; its glint is not.';
    case 'clear':
      return 'A clear coat is shown as slightly deeper colour; its gloss is not.';
    default:
      return null;
  }
}
