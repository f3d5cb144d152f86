import type { FilmArt, FilmPrinter, LayOutRequest } from '../../../core/film/index.ts';
import { sheetNamed } from '../../../core/film/index.ts';
import { blankMask, type Mask } from '../../../core/raster/index.ts';

/** A small repeatable generator (mulberry32), so that a failing case can be made again from its seed. */
export function seeded(seed: number): () => number {
  let a = seed | 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Paints where `inside` says so, asked at pixel middles in film mm. */
export function paint(
  mask: Mask,
  box: { x: number; y: number; height: number },
  dpi: number,
  area: { x: number; y: number; width: number; height: number },
  inside: (u: number, v: number) => boolean,
): void {
  const s = dpi / 25.4;
  const top = box.y + box.height;
  const x0 = Math.max(0, Math.floor((area.x - box.x) * s));
  const x1 = Math.min(mask.width as number, Math.ceil((area.x + area.width - box.x) * s));
  const y0 = Math.max(0, Math.floor((top - area.y - area.height) * s));
  const y1 = Math.min(mask.height as number, Math.ceil((top - area.y) * s));
  for (let y = y0; y < y1; y++) {
    for (let x = x0; x < x1; x++) {
      if (inside(box.x + (x + 0.5) / s, top - (y + 0.5) / s))
        mask.data[y * mask.stride + (x >> 5)]! |= 1 << (x & 31);
    }
  }
}

const disc = (cu: number, cv: number, r: number) => ({
  area: { x: cu - r, y: cv - r, width: 2 * r, height: 2 * r },
  inside: (u: number, v: number) => (u - cu) ** 2 + (v - cv) ** 2 <= r * r,
});

/** Half width of a deck-like outline at u, mm: straight rails, round ends, a slight waist. */
export function halfWidth(u: number, half: number, nose: number, tail: number): number {
  const end = u > 0 ? nose : -tail;
  const past = Math.abs(u) - (Math.abs(end) - half);
  if (past >= half) return 0;
  const round = past > 0 ? half * Math.sqrt(1 - (past / half) ** 2) : half;
  return round - 3 * Math.exp(-((u / 120) ** 2));
}

/**
 * An invented bottom face as the later stages see it: five films of a deck-sized picture. Base: most of the deck; others:
 * discs, bars, a ring, fine lines.
 */
export function testFilms(dpi: number, length = 800, half = 98): FilmArt[] {
  const s = dpi / 25.4;
  const nose = length / 2 + 8;
  const tail = length / 2 - 8;
  const left = Math.floor(-tail * s) - 2;
  const bottom = Math.floor(-half * s) - 2;
  const width = Math.ceil(nose * s) + 2 - left;
  const height = Math.ceil(half * s) + 2 - bottom;
  const box = { x: left / s, y: bottom / s, width: width / s, height: height / s };
  const blank = () => blankMask(width, height);
  const deck = (inset: number) => (u: number, v: number) =>
    Math.abs(v) < halfWidth(u, half, nose, tail) - inset && u > -tail + inset && u < nose - inset;
  const masks = [blank(), blank(), blank(), blank(), blank()];
  const on = (i: number, area: Parameters<typeof paint>[3], inside: (u: number, v: number) => boolean) =>
    paint(masks[i]!, box, dpi, area, inside);
  const inDeck = deck(6);
  on(0, box, (u, v) => inDeck(u, v) && !(Math.abs(v) < 9 && Math.abs(u) < 300) && (u < 40 || u > 90));
  for (let i = 0; i < 9; i++) {
    const d = disc(-320 + i * 80, i % 2 === 0 ? 40 : -40, 24);
    on(1, d.area, (u, v) => d.inside(u, v) && inDeck(u, v));
  }
  on(2, { x: 150, y: -60, width: 160, height: 120 }, (u, v) => inDeck(u, v) && (u + v * 0.7) % 16 < 7);
  const ring = disc(-180, 0, 62);
  const core = disc(-180, 0, 50);
  on(3, ring.area, (u, v) => ring.inside(u, v) && !core.inside(u, v));
  on(
    4,
    box,
    (u, v) => inDeck(u, v) && (Math.abs(Math.sin(u / 30) * 50 - v) < 0.6 || Math.abs(v + 70 - u / 40) < 0.2),
  );
  const names = ['white base', 'sun yellow', 'coral', 'sea green', 'night blue key'];
  const hexes = ['#f4f1e6', '#f2c230', '#ee6a55', '#2f8f7d', '#1d2a52'];
  return masks.map((mask, i) => ({
    inkId: `ink-${i + 1}`,
    inkName: names[i]!,
    hex: hexes[i]!,
    pull: i + 1,
    pulls: masks.length,
    meshPerCm: i === 0 ? 43 : 77,
    mask,
    box,
    dpi,
  }));
}

/** Truck-hole centres of the common 2 1/8 by 1 5/8 inch pattern on a 14.25 inch wheelbase (common practice, no source). */
export const HOLES = [-1, 1].flatMap((end) =>
  [180.975, 234.95].flatMap((x) => [-20.6375, 20.6375].map((v) => ({ u: end * x, v }))),
);

export const printer = (over: Partial<FilmPrinter> & { named?: string } = {}): FilmPrinter => ({
  sheet: sheetNamed(over.named ?? 'a4')!,
  margin: 5,
  scaleX: 1,
  scaleY: 1,
  overlap: 20,
  mirror: false,
  ...over,
});

export const request = (
  films: readonly FilmArt[],
  over: Parameters<typeof printer>[0] = {},
): LayOutRequest => ({
  face: 'bottom',
  jobName: 'Night Heron',
  films,
  holes: HOLES,
  printer: printer(over),
});
