import { colourNames, deltaE00, labOfHex, parseHex } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';
import { type ArtColour, type ArtColours, artColour, artColoursOf } from './artColours.ts';
import { gatherColours, joinColours, meanColours, oklabDistance } from './cluster.ts';

export interface InkSuggestion {
  readonly hex: string;
  /** Share of the inked points, 0 to 1. */
  readonly share: number;
  readonly name: string;
}

export interface SuggestOptions {
  /** Inks the printer owns: what is found is snapped to the nearest of them. */
  readonly shelf?: readonly { readonly name: string; readonly hex: string }[] | undefined;
  /** The art's paper, which needs no ink. */
  readonly ground?: string | null | undefined;
  /** Colours of the art that have their inks already and keep them; they count among the inks. */
  readonly kept?: readonly string[] | undefined;
}

/** Share of the inked points that an ink must cover to be suggested. */
const LEAST_SHARE = 0.001;
/** Art is flat when at least this share of it lies in even areas. */
const FLAT_SHARE = 0.4;
/** A smooth gradient has even areas too, but no end of colours: so many must make up so much of the even areas. */
const FEW_COLOURS = 24;
const FEW_SHARE = 0.8;
/** OKLab; nearer colours are one ink: exact colours, and colours that compression has stirred. */
const EXACT_RADIUS = 0.02;
const STIRRED_RADIUS = 0.07;
/** ΔE00 within which a colour is the paper's. */
const PAPER = 4;
/** ΔE00 below which two exact colours are one ink. */
const TWIN = 1.5;
/** Encoded levels: a loose colour this far off every mix of two inks is an ink of its own, drawn only in hairlines. */
const OFF_MIX = 40;
/** Share of the even areas below which a mix of two inks is taken for a smear along their edge. */
const MIX_SHARE = 0.0025;
/** Suggested without being asked for a number: hand presses with more screens are rare. */
const MOST_UNASKED = 12;
/** Shaded art is advised as many inks as still lower the mean ΔE00 by this much each. Common practice, no source. */
const WORTH_A_SCREEN = 0.6;
const LEAST_SHADED = 3;
const MOST_SHADED = 8;
/** ΔE00 within which a colour belongs to a kept one. */
const KEPT = 4;

/**
 * Inks for a piece of art, light to dark (the usual pull order; common practice). `count` null: as many as the art has. Flat art
 * gives its own exact colours, and fewer than `count` if it has fewer; shaded art gives colours that represent it.
 */
export const suggestInks = (
  picture: Picture,
  count: number | null,
  options: SuggestOptions = {},
): InkSuggestion[] => suggestFrom(artColoursOf(picture), count, options);

/** As `suggestInks`, from colours that are counted already. */
export function suggestFrom(
  colours: ArtColours,
  count: number | null,
  options: SuggestOptions = {},
): InkSuggestion[] {
  if (colours.inked === 0) return [];
  const paper = options.ground ? labOfHex(options.ground) : null;
  const kept = (options.kept ?? []).map((hex) => ({ hex: hex.toLowerCase(), lab: labOfHex(hex) }));
  const keptBy = (c: ArtColour) => {
    const lab = labOfHex(c.hex);
    return kept.find((k) => deltaE00(k.lab, lab) <= KEPT);
  };
  const printed = (c: ArtColour) => !paper || deltaE00(labOfHex(c.hex), paper) > PAPER;
  const wanted = count === null ? null : count - kept.length;
  const free = (c: ArtColour) => printed(c) && !keptBy(c);
  let found = wanted !== null && wanted <= 0 ? [] : coloursFor(colours, wanted, free, printed);
  if (options.shelf && options.shelf.length > 0) found = snapped(found, options.shelf);
  for (const { hex, lab } of kept) {
    const own = colours.all.filter((c) => deltaE00(labOfHex(c.hex), lab) <= KEPT);
    const n = own.reduce((sum, c) => sum + c.count, 0);
    found = [...found.filter((c) => c.hex !== hex), artColour(hex, Math.max(1, n))];
  }
  const total = found.reduce((sum, c) => sum + c.count, 0);
  const light = found.sort((a, b) => labOfHex(b.hex).l - labOfHex(a.hex).l || (a.hex < b.hex ? -1 : 1));
  const names = colourNames(light.map((c) => c.hex));
  const shelfName = (hex: string) => options.shelf?.find((s) => s.hex.toLowerCase() === hex)?.name;
  return light.map((c, i) => ({ hex: c.hex, share: c.count / total, name: shelfName(c.hex) ?? names[i]! }));
}

function coloursFor(
  colours: ArtColours,
  count: number | null,
  free: (c: ArtColour) => boolean,
  printed: (c: ArtColour) => boolean,
): ArtColour[] {
  const sum = (list: readonly ArtColour[]) => list.reduce((n, c) => n + c.count, 0);
  // Paper is not inked, however much of it there is.
  const inked = colours.inked - sum(colours.all.filter((c) => !printed(c)));
  const enough = (c: ArtColour) => c.count >= LEAST_SHARE * inked;
  const most = count ?? MOST_UNASKED;
  const areFlat = (list: readonly ArtColour[]) =>
    sum(list) >= FLAT_SHARE * colours.inked && sum(list.slice(0, FEW_COLOURS)) >= FEW_SHARE * sum(list);
  if (areFlat(colours.exact)) {
    const groups = gatherColours(colours.exact, EXACT_RADIUS, false).filter(enough);
    const stirred = gatherColours(colours.even, STIRRED_RADIUS, true).filter(enough);
    const drawn = withoutTwins(groups);
    const missed = withoutMixes([...drawn, ...stirred]).filter(
      (c) => stirred.includes(c) && drawn.every((g) => oklabDistance(g.oklab, c.oklab) > STIRRED_RADIUS),
    );
    const found = withHairlines([...drawn, ...missed], colours.loose, LEAST_SHARE * inked);
    return joinColours(found.filter(free), most);
  }
  if (areFlat(colours.even)) {
    const groups = gatherColours(colours.even, STIRRED_RADIUS, true).filter(enough);
    return joinColours(withoutMixes(groups).filter(free), most);
  }
  const shades = colours.all.filter(free);
  return meanColours(shades, count ?? advisedFor(shades));
}

/** How many inks shaded art is worth: one more as long as it brings the art clearly nearer. */
function advisedFor(shades: readonly ArtColour[]): number {
  const labs = shades.map((c) => labOfHex(c.hex));
  const total = shades.reduce((n, c) => n + c.count, 0);
  const off = (count: number) => {
    const inks = meanColours(shades, count).map((c) => labOfHex(c.hex));
    let sum = 0;
    labs.forEach((lab, i) => {
      sum += shades[i]!.count * Math.min(...inks.map((ink) => deltaE00(ink, lab)));
    });
    return sum / total;
  };
  let last = off(LEAST_SHADED);
  for (let count = LEAST_SHADED; count < MOST_SHADED; count++) {
    const next = off(count + 1);
    if (last - next < WORTH_A_SCREEN) return count;
    last = next;
  }
  return MOST_SHADED;
}

/** Joins colours that look the same: in the darks, OKLab sees more than eyes do. */
function withoutTwins(found: readonly ArtColour[]): ArtColour[] {
  const kept: ArtColour[] = [];
  for (const colour of found) {
    const lab = labOfHex(colour.hex);
    const twin = kept.findIndex((c) => deltaE00(labOfHex(c.hex), lab) < TWIN);
    if (twin < 0) kept.push(colour);
    else kept[twin] = { ...kept[twin]!, count: kept[twin]!.count + colour.count };
  }
  return kept;
}

/** Adds colours that occur only in lines too thin for an even area, unless two found colours mix to them. */
function withHairlines(found: readonly ArtColour[], loose: readonly ArtColour[], least: number): ArtColour[] {
  const all = [...found];
  for (const colour of gatherColours(loose, EXACT_RADIUS, false)) {
    if (colour.count < least) break;
    if (all.some((c) => oklabDistance(c.oklab, colour.oklab) < EXACT_RADIUS * 2)) continue;
    if (!isMix(colour, all, OFF_MIX)) all.push(colour);
  }
  return all;
}

/** Leaves out small groups that are mixes of two larger ones, or almost one of them: what compression smears along edges. */
function withoutMixes(found: readonly ArtColour[]): ArtColour[] {
  const total = found.reduce((n, c) => n + c.count, 0);
  const kept: ArtColour[] = [];
  for (const colour of found) {
    const share = colour.count / total;
    const near = kept.some((c) => oklabDistance(c.oklab, colour.oklab) < STIRRED_RADIUS * 2);
    if (share < 0.01 && near) continue;
    if (share < MIX_SHARE && isMix(colour, kept, OFF_MIX)) continue;
    kept.push(colour);
  }
  return kept;
}

/** Whether some mix of two of `of` (encoded sRGB) comes within `levels` of the colour. */
function isMix(colour: ArtColour, of: readonly ArtColour[], levels: number): boolean {
  const p = parseHex(colour.hex);
  for (let i = 0; i < of.length; i++)
    for (let j = i + 1; j < of.length; j++) {
      const a = parseHex(of[i]!.hex);
      const b = parseHex(of[j]!.hex);
      const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
      const v = [p[0] - a[0], p[1] - a[1], p[2] - a[2]] as const;
      const uu = u[0] ** 2 + u[1] ** 2 + u[2] ** 2;
      if (uu === 0) continue;
      const t = Math.max(0, Math.min(1, (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) / uu));
      if (Math.hypot(v[0] - t * u[0], v[1] - t * u[1], v[2] - t * u[2]) <= levels) return true;
    }
  return false;
}

/** Each colour becomes the nearest ink of the shelf (ΔE00); two that share one are joined. */
function snapped(found: readonly ArtColour[], shelf: readonly { readonly hex: string }[]): ArtColour[] {
  const counts = new Map<string, number>();
  for (const colour of found) {
    const lab = labOfHex(colour.hex);
    let best = shelf[0]!.hex;
    let least = Number.POSITIVE_INFINITY;
    for (const { hex } of shelf) {
      const d = deltaE00(lab, labOfHex(hex));
      if (d < least) {
        least = d;
        best = hex;
      }
    }
    const key = best.toLowerCase();
    counts.set(key, (counts.get(key) ?? 0) + colour.count);
  }
  return [...counts].map(([hex, n]) => artColour(hex, n));
}
