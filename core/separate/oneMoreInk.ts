import { colourNames, deltaE00, labOfHex } from '../colour/index.ts';
import type { ArtColours } from './artColours.ts';
import { gatherColours } from './cluster.ts';
import type { InkSuggestion, SuggestOptions } from './suggestInks.ts';

/** OKLab within which shades are tried as one, and how many of them, the commonest first. */
const SHADE_RADIUS = 0.04;
const SHADES = 48;
/** Bins of colours that are asked, the commonest first: the rest is a few points of soft edges. */
const MOST_BINS = 2000;
/** ΔE00 to an ink below which a shade is that ink. */
const SAME = 2;

/**
 * The inks and one more, for art that has no further area of one colour: of the art's shades (or of the shelf) the one that brings
 * all of its points nearest, by the sum of ΔE00 to the nearest ink. Null when no shade brings it nearer.
 */
export function withOneMoreInk(
  colours: ArtColours,
  inks: readonly InkSuggestion[],
  { shelf, ground }: SuggestOptions,
): InkSuggestion[] | null {
  const paper = ground ? labOfHex(ground) : null;
  const labs = inks.map((ink) => labOfHex(ink.hex));
  const bins = colours.all
    .slice(0, MOST_BINS)
    .map((bin) => ({ lab: labOfHex(bin.hex), count: bin.count }))
    // What is nearer to the paper than to any ink prints nothing.
    .map((bin) => ({ ...bin, off: Math.min(...labs.map((lab) => deltaE00(lab, bin.lab))) }))
    .filter((bin) => !paper || deltaE00(paper, bin.lab) > bin.off);
  const offered =
    shelf && shelf.length > 0 ? shelf : gatherColours(colours.all, SHADE_RADIUS, false).slice(0, SHADES);
  let most = 0;
  let best: { hex: string; share: number } | null = null;
  for (const { hex } of offered) {
    const lab = labOfHex(hex);
    if (labs.some((own) => deltaE00(own, lab) < SAME) || (paper && deltaE00(paper, lab) < SAME)) continue;
    let gain = 0;
    let points = 0;
    for (const bin of bins) {
      const nearer = bin.off - deltaE00(lab, bin.lab);
      if (nearer <= 0) continue;
      gain += bin.count * nearer;
      points += bin.count;
    }
    if (gain > most) {
      most = gain;
      best = { hex: hex.toLowerCase(), share: points / colours.inked };
    }
  }
  if (!best) return null;
  const { hex, share } = best;
  const name = shelf?.find((s) => s.hex.toLowerCase() === hex)?.name ?? colourNames([hex])[0]!;
  const less = inks.map((ink) => ({ ...ink, share: ink.share * (1 - share) }));
  return [...less, { hex, share, name }].sort((a, b) => labOfHex(b.hex).l - labOfHex(a.hex).l);
}
