import type { Oklab } from '../colour/index.ts';
import { type ArtColour, artColourOf, byCount } from './artColours.ts';

export const oklabDistance = (p: Oklab, q: Oklab): number => Math.hypot(p.l - q.l, p.a - q.a, p.b - q.b);

/**
 * Gathers colours (the commonest first) about the commonest of them, each within `radius` (OKLab). A group keeps its
 * commonest member's colour, or with `mean` takes the weighted mean.
 */
export function gatherColours(colours: readonly ArtColour[], radius: number, mean: boolean): ArtColour[] {
  const groups: { seed: ArtColour; count: number; l: number; a: number; b: number }[] = [];
  for (const colour of colours) {
    let best: (typeof groups)[number] | null = null;
    let least = radius;
    for (const group of groups) {
      const d = oklabDistance(group.seed.oklab, colour.oklab);
      if (d < least) {
        least = d;
        best = group;
      }
    }
    if (!best) {
      best = { seed: colour, count: 0, l: 0, a: 0, b: 0 };
      groups.push(best);
    }
    best.count += colour.count;
    best.l += colour.oklab.l * colour.count;
    best.a += colour.oklab.a * colour.count;
    best.b += colour.oklab.b * colour.count;
  }
  return groups
    .map(({ seed, count, l, a, b }) =>
      mean ? artColourOf({ l: l / count, a: a / count, b: b / count }, count) : { ...seed, count },
    )
    .sort(byCount);
}

/** Small distinct colours are accents: they weigh by the root of their area, not by the area. */
const weight = (colour: ArtColour) => Math.sqrt(colour.count);

/** Joins the two groups that cost least to join until `count` are left (Ward's criterion); the heavier keeps its colour. */
export function joinColours(colours: readonly ArtColour[], count: number): ArtColour[] {
  const left = [...colours];
  while (left.length > count) {
    let least = Number.POSITIVE_INFINITY;
    let pair: readonly [number, number] = [0, 1];
    for (let i = 0; i < left.length; i++)
      for (let j = i + 1; j < left.length; j++) {
        const wi = weight(left[i]!);
        const wj = weight(left[j]!);
        const cost = oklabDistance(left[i]!.oklab, left[j]!.oklab) ** 2 * ((wi * wj) / (wi + wj));
        if (cost < least) {
          least = cost;
          pair = [i, j];
        }
      }
    const [a, b] = [left[pair[0]]!, left[pair[1]]!];
    const heavy = a.count >= b.count ? a : b;
    left[pair[0]] = { ...heavy, count: a.count + b.count };
    left.splice(pair[1], 1);
  }
  return left.sort(byCount);
}

/** Rounds of moving each centre to the mean of its colours; later ones hardly move. */
const ROUNDS = 24;

/**
 * `count` colours for shaded art: weighted k-means in OKLab, begun from the commonest colour and then always from the colour that is
 * farthest for its weight. Deterministic.
 */
export function meanColours(colours: readonly ArtColour[], count: number): ArtColour[] {
  if (colours.length === 0) return [];
  const centres: Oklab[] = [colours[0]!.oklab];
  while (centres.length < Math.min(count, colours.length)) {
    let most = -1;
    let next = colours[0]!;
    for (const colour of colours) {
      const d = Math.min(...centres.map((c) => oklabDistance(c, colour.oklab)));
      if (d * d * weight(colour) > most) {
        most = d * d * weight(colour);
        next = colour;
      }
    }
    centres.push(next.oklab);
  }
  const counts = new Float64Array(centres.length);
  for (let round = 0; round < ROUNDS; round++) {
    const sums = centres.map(() => ({ l: 0, a: 0, b: 0, w: 0 }));
    counts.fill(0);
    for (const colour of colours) {
      let best = 0;
      let least = Number.POSITIVE_INFINITY;
      centres.forEach((centre, i) => {
        const d = oklabDistance(centre, colour.oklab);
        if (d < least) {
          least = d;
          best = i;
        }
      });
      const w = weight(colour);
      const sum = sums[best]!;
      sum.l += w * colour.oklab.l;
      sum.a += w * colour.oklab.a;
      sum.b += w * colour.oklab.b;
      sum.w += w;
      counts[best]! += colour.count;
    }
    sums.forEach(({ l, a, b, w }, i) => {
      if (w > 0) centres[i] = { l: l / w, a: a / w, b: b / w };
    });
  }
  return centres.map((centre, i) => artColourOf(centre, counts[i]!)).filter((c) => c.count > 0);
}
